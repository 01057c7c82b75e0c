// Puts the project's own Node (a platform package in node_modules) first on PATH and runs a command with it,
// so that every npm script runs on Node 24 whatever Node started npm. Old Nodes run this file: plain JavaScript only.
'use strict';
var fs = require('fs');
var path = require('path');
var spawn = require('child_process').spawn;

var LEAST_MAJOR = 24;
var root = path.resolve(__dirname, '..', '..');
var modules = path.join(root, 'node_modules');
var windows = process.platform === 'win32';
var platform = windows ? 'win' : process.platform;
var own = path.join(modules, 'node-' + platform + '-' + process.arch, 'bin', windows ? 'node.exe' : 'node');
var found = fs.existsSync(own);

if (!found && Number(process.versions.node.split('.')[0]) < LEAST_MAJOR) {
  console.error(
    'Backweigh needs Node ' +
      LEAST_MAJOR +
      '. No package brings one for ' +
      platform +
      '-' +
      process.arch +
      ', and the Node on PATH is ' +
      process.versions.node +
      '. Install Node ' +
      LEAST_MAJOR +
      ' or newer and try again.',
  );
  process.exit(1);
}
if (!found) own = process.execPath;

var env = Object.assign({}, process.env);
var name =
  Object.keys(env).find(function (key) {
    return key.toUpperCase() === 'PATH';
  }) || 'PATH';
env[name] = [path.dirname(own), path.join(modules, '.bin'), env[name] || ''].join(path.delimiter);

var command = process.argv[2];
var rest = process.argv.slice(3);
var child = spawn(command === 'node' ? own : command, rest, {
  cwd: root,
  env: env,
  stdio: 'inherit',
  shell: windows && command !== 'node',
});
['SIGINT', 'SIGTERM', 'SIGHUP'].forEach(function (signal) {
  process.on(signal, function () {
    child.kill(signal);
  });
});
child.on('error', function (error) {
  console.error('Could not start ' + command + ': ' + error.message);
  process.exit(1);
});
child.on('exit', function (code, signal) {
  process.exit(code === null ? (signal === 'SIGINT' ? 130 : 1) : code);
});
