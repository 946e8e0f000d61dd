// The one door of the package.
export { deviceRevoked, type PairedDevice, pairedDevices } from './access/devices.ts';
export { type AppOptions, createApp } from './app.ts';
export { directoryAt, remoteDirectory } from './remote/remote-directory.ts';
export { called } from './remote/server-calls.ts';
export { type Running, runningServer } from './running.ts';
export { type ServeOptions, type Serving, serve } from './serve.ts';
