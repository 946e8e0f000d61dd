/** The page of a device that is not paired: works without any script. */
export const pairPage = (fault?: string): string => `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Pair with the bench</title>
<link rel="stylesheet" href="/pair.css">
<main>
<h1>Pair with the bench</h1>
<p>The desk shows a code of six letters and digits. Type it here once; this device is then let in until it is
revoked at the desk.</p>
${fault === undefined ? '' : `<p role="alert"><strong>${escaped(fault)}</strong></p>`}
<form method="post" action="/api/pair">
<p><label for="code">Code</label>
<input id="code" name="code" required maxlength="12" autocomplete="off" autocapitalize="characters" spellcheck="false"></p>
<p><label for="name">Name of this device</label>
<input id="name" name="name" required maxlength="60" autocomplete="off" placeholder="bench tablet"></p>
<p><button>Pair</button></p>
</form>
</main>
</html>
`;

/** What stands in for the page while it is not built. */
export const notBuiltPage = (): string => `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>fettle</title>
<link rel="stylesheet" href="/pair.css">
<main>
<h1>The bench page is not built yet</h1>
<p>The server runs and answers under /api/. Run <code>npm start</code> in the program's folder to build the page.</p>
</main>
</html>
`;

export const PAIR_STYLE = `:root { color-scheme: light dark; --paper: #fbf9f4; --ink: #1d1b18; --accent: #9a3b12; }
@media (prefers-color-scheme: dark) { :root { --paper: #171614; --ink: #eee9df; --accent: #f0a070; } }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.25rem/1.5 "Atkinson Hyperlegible Next", system-ui, sans-serif; }
main { max-width: 34rem; margin: 0 auto; padding: 2rem 1.25rem; }
h1 { font-size: 1.75rem; line-height: 1.2; }
label { display: block; font-weight: 600; }
input { box-sizing: border-box; width: 100%; min-height: 4rem; padding: 0 0.75rem; font: inherit; color: inherit; background: transparent; border: 2px solid var(--ink); border-radius: 0; }
#code { font-size: 2rem; letter-spacing: 0.25em; text-transform: uppercase; }
button { width: 100%; min-height: 5.6rem; font: inherit; font-weight: 700; color: var(--paper); background: var(--ink); border: 0; }
:focus-visible { outline: 4px solid var(--accent); outline-offset: 2px; }
[role="alert"] { border-left: 6px solid var(--accent); padding-left: 0.75rem; }
`;

const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
