package bot

import "yardbell/rules"

// ownLanguageLeads stand before the language in which somebody wants to be answered.
var ownLanguageLeads = []string{"set my language", "my language", "my lang", "ajustar mi idioma", "mi idioma", "mi lengua"}

// noOwnLanguage are the words that end a language of one's own, folded.
var noOwnLanguage = words(`off none default no ninguno normal`)

// ownLanguageSmall may stand between the two.
var ownLanguageSmall = words(`is es to a : =`)

// ownLanguage reads "my language es" and "mi idioma español". Nothing but a known
// language may follow, unless the bot is spoken to: people talk of languages.
func (d *reader) ownLanguage() bool {
	i := d.lead(0, ownLanguageLeads)
	if i == 0 {
		return false
	}
	// As typed: "es" is a language here and a verb elsewhere.
	if len(d.toks) > i+1 && ownLanguageSmall[fold(d.toks[i].orig)] {
		i++
	}
	if i != len(d.toks)-1 {
		return false
	}
	typed := d.toks[i].orig
	_, known := rules.ParseLanguage(typed)
	if !known && !noOwnLanguage[fold(typed)] && !d.r.addressed {
		return false
	}
	d.r.verb, d.r.key, d.r.value = doSet, ownKey, typed
	return true
}
