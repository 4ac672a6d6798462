// Starts an independent server of the Bot API for the test in
// cmd/yardbell/foreign_test.go, on the loopback port given as the argument. It ends
// with its standard input, so that it does not outlive the test.
const TelegramServer = require('telegram-test-api');

// The server has no edits by people: whatever its routes take in is handed to the bot
// as a message or a press, made by this one function, and nowhere can an update be
// posted as it is. So what is posted with `edits`, the number of an earlier message,
// is handed out as the edit of that one. Queue, delivery and numbering stay the
// server's own.
const handOut = TelegramServer.formatUpdate;
TelegramServer.formatUpdate = (update) => {
  const out = handOut(update);
  if (!out.message || !out.message.edits) {
    return out;
  }
  const { edits, ...message } = out.message;
  return { update_id: out.update_id, edited_message: { ...message, message_id: edits, edit_date: message.date } };
};

const port = Number(process.argv[2]);
const server = new TelegramServer({ port, host: '127.0.0.1', storeTimeout: 3600 });
server.start().then(() => console.log('ready'));
process.stdin.on('end', () => process.exit(0));
process.stdin.resume();
