package bot

import "yardbell/rules"

// ownLanguageLeads stand before the language in which somebody wants to be answered.
var ownLanguageLeads = []string{"set my language", "my language", "my lang", "ajustar mi idioma", "mi idioma", "mi lengua"}

// noOwnLanguage are the words that end a language of one's own, folded.
var noOwnLanguage = words(`off none default no ninguno normal`)

// ownLanguage reads "my language es" and "mi idioma español". Nothing but a known
// language may follow, unless the bot is spoken to: people talk of languages.
func (d *reader) ownLanguage() bool {
	i := d.lead(0, ownLanguageLeads)
	if i == 0 {
		return false
	}
	if w := d.word(i); len(d.toks) > i+1 && (w == "is" || w == "es" || w == "to" || w == "a" || w == ":" || w == "=") {
		i++
	}
	if i != len(d.toks)-1 {
		return false
	}
	_, known := rules.ParseLanguage(d.word(i))
	if !known && !noOwnLanguage[d.word(i)] && !d.r.addressed {
		return false
	}
	d.r.verb, d.r.key, d.r.value = doSet, ownKey, d.toks[i].orig
	return true
}
