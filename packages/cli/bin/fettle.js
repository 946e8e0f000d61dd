#!/usr/bin/env node
// Committed, not built: npm links a workspace's command only if its file exists when it installs.
import { main } from '../dist/main.js';

// A reader such as `head` may have had enough before everything was said: that is no fault of the program.
process.stdout.on('error', (error) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

process.exitCode = await main(process.argv.slice(2));
