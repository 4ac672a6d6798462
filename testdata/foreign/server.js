// Starts an independent server of the Bot API for the test in
// cmd/yardbell/foreign_test.go, on the loopback port given as the argument. It ends
// with its standard input, so that it does not outlive the test.
const TelegramServer = require('telegram-test-api');

const port = Number(process.argv[2]);
const server = new TelegramServer({ port, host: '127.0.0.1', storeTimeout: 3600 });
server.start().then(() => console.log('ready'));
process.stdin.on('end', () => process.exit(0));
process.stdin.resume();
