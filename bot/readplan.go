package bot

// fileWords ask for the records or the calendar, by their first word.
var fileWords = map[string]verb{"report": askReport, "records": askReport, "spreadsheet": askReport, "csv": askReport, "calendar": askCal}

// calendarWords may stand after "calendar".
var calendarWords = words(`link file on off new`)

// filed reads "report", "report 2031", "csv", "calendar" and "calendar link". A
// sentence that only begins so is talk.
func (d *reader) filed() bool {
	i := d.lead(0, []string{"show me the", "show me", "show", "send me the", "send me", "send", "the", "my"})
	v, known := fileWords[d.word(i)]
	if !known {
		return false
	}
	r := d.r
	topic := d.word(i)
	for i++; i < len(d.toks); i++ {
		w := d.word(i)
		switch n, isNum := d.number(i); {
		case v == askReport && isNum && n >= 2000 && n < 2200 && r.days == 0:
			r.days = n
		case v == askReport && (w == "for" || w == "of" || w == "season" || w == "year" || w == "this"):
		case v == askCal && calendarWords[w] && topic == "calendar":
			topic = w
		case w == "please" || w == "pls":
		default:
			r.days = 0
			return false
		}
	}
	r.verb, r.topic, r.question = v, topic, false
	return true
}
