#!/usr/bin/env node
// Committed, not built: npm links a workspace's command only if its file exists when it installs.
import { main } from '../dist/main.js';

process.exitCode = await main(process.argv.slice(2));
