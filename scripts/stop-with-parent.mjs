// Loaded into each server process before its own code. The channel to the parent carries nothing;
// when the parent is killed outright it closes, and this process stops as if it had been asked to.
process.once('disconnect', () => {
  process.kill(process.pid, 'SIGTERM');
  // A server that does not finish its requests in time must not live on with nobody watching it.
  setTimeout(() => process.exit(1), 8000).unref();
});
// The watch must not keep a process alive that has otherwise finished.
process.channel?.unref();
