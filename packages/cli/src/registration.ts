import type { Outcome } from '@fettle/core';
import type { Command } from 'commander';
import type { Context } from './context.ts';
import type { Reply } from './reply.ts';

/** What a command does once its words are read. */
export type Handler = (context: Context) => Promise<Outcome<Reply>>;

/** Adds a command to the program; `run` is given the handler when the command was chosen. */
export type Register = (program: Command, run: (handler: Handler) => Promise<void>) => void;
