// Reads calendar files with two parsers that have nothing in common, and prints what
// each made of them as one JSON array; for the test in
// cmd/yardbell/foreigncalendar_test.go. Anything a parser complains of ends it.
const fs = require('fs');
const nodeIcal = require('node-ical');

const iso = (d) => new Date(d).toISOString();

// stamp reads the UTC form "20310515T150000Z" of the standard.
const stamp = (s) => s.replace(/^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/, '$1-$2-$3T$4:$5:$6.000Z');

// byIcal takes the clock changes from the file alone, as a phone without the zone would.
function byIcal(ICAL, text) {
  ICAL.design.strict = true;
  const calendar = new ICAL.Component(ICAL.parse(text));
  ICAL.TimezoneService.reset();
  for (const zone of calendar.getAllSubcomponents('vtimezone')) {
    ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  }
  return calendar.getAllSubcomponents('vevent').map((c) => {
    const event = new ICAL.Event(c);
    const own = (name) => c.getFirstPropertyValue('x-yardbell-' + name) || '';
    const at = (time) => {
      if (!time.zone || !['UTC', calendar.getFirstSubcomponent('vtimezone')?.getFirstPropertyValue('tzid')].includes(time.zone.tzid)) {
        throw new Error(`event ${event.uid}: the zone of ${time} is not in the file`);
      }
      return iso(time.toJSDate());
    };
    return {
      uid: event.uid, sequence: event.sequence, status: c.getFirstPropertyValue('status'), start: at(event.startDate), end: at(event.endDate),
      summary: event.summary, text: event.description || '', place: event.location || '', step: own('step'), subject: own('subject'),
      earliest: own('earliest') && stamp(own('earliest')), best: own('best') && stamp(own('best')), latest: own('latest') && stamp(own('latest')),
      alarms: c.getAllSubcomponents('valarm').map((a) => iso(a.getFirstPropertyValue('trigger').toJSDate())).sort(),
    };
  });
}

// byNode knows the zones itself.
function byNode(text) {
  return Object.values(nodeIcal.sync.parseICS(text)).filter((e) => e.type === 'VEVENT').map((e) => {
    const own = (name) => e['YARDBELL-' + name] ?? e['X-YARDBELL-' + name] ?? '';
    return {
      uid: e.uid, sequence: Number(e.sequence), status: e.status, start: iso(e.start), end: iso(e.end),
      summary: e.summary, text: e.description || '', place: e.location || '', step: own('STEP'), subject: own('SUBJECT'),
      earliest: own('EARLIEST') && stamp(own('EARLIEST')), best: own('BEST') && stamp(own('BEST')), latest: own('LATEST') && stamp(own('LATEST')),
      alarms: (e.alarms || []).map((a) => stamp(String(a.trigger?.val ?? a.trigger))).sort(),
    };
  });
}

async function main() {
  const complaints = [];
  for (const name of ['warn', 'error', 'log']) {
    console[name] = (...words) => complaints.push(words.join(' '));
  }
  const { default: ICAL } = await import('ical.js');
  const read = process.argv.slice(2).map((path) => {
    const text = fs.readFileSync(path, 'utf8');
    return { ical: byIcal(ICAL, text), node: byNode(text) };
  });
  if (complaints.length > 0) {
    throw new Error(complaints.join('; '));
  }
  process.stdout.write(JSON.stringify(read));
}

main().catch((e) => {
  process.stderr.write(`${e.stack}\n`);
  process.exit(1);
});
