import type { ComponentType } from 'preact';
import { useState } from 'preact/hooks';
import { hashOf, type PlaceName, route } from '../route.ts';
import { job } from '../state/job.ts';

export interface Section {
  readonly name: string;
  readonly word: string;
  readonly Part: ComponentType;
}

interface Given {
  readonly place: PlaceName;
  readonly label: string;
  readonly sections: readonly [Section, ...Section[]];
}

/** The section of a place that the address names, the first where it names none. */
export const sectionAt = (sections: Given['sections']): Section =>
  sections.find(({ name }) => name === route.value.rest[0]) ?? sections[0];

/**
 * The ways to the sections of one place. On a phone eight of them would fill half the screen: there the one that is
 * open stands alone, until somebody asks for the others.
 */
export function SectionLinks({ place, label, sections }: Given) {
  const here = sectionAt(sections);
  const [all, setAll] = useState(false);
  return (
    <nav aria-label={label} class={all ? 'sections-nav all' : 'sections-nav'}>
      <ul class="sections">
        {sections.map(({ name, word }) => (
          <li key={name} class={name === here.name ? 'here' : undefined}>
            <a
              class="button"
              href={hashOf(job.value ?? '', place, name)}
              aria-current={name === here.name ? 'true' : undefined}
              onClick={() => setAll(false)}
            >
              {word}
            </a>
          </li>
        ))}
        <li class="others">
          <button type="button" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? 'Only this' : `${sections.length - 1} others`}
          </button>
        </li>
      </ul>
    </nav>
  );
}
