package bot

import (
	"regexp"
	"strings"

	"yardbell/rules"
)

// Settings in Spanish. "Tarde" and "mañana" are settings after "ajustar" and times
// everywhere else, so the words of settings have a table of their own.

// setLeads open a setting; only the first list takes a setting nobody knows.
var (
	setLeads  = words(`ajustar ajusta configurar configura`)
	setCommon = words(`poner pon ponga fijar fija cambiar cambia set change`)
)

var settingSpanish = []struct{ typed, key string }{
	{"dias libres", "days off"}, {"dia libre", "days off"}, {"zona horaria", "zone"}, {"zona", "zone"}, {"huso", "zone"}, {"idioma", "language"},
	{"lengua", "language"}, {"tarde", "evening"}, {"noche", "evening"}, {"manana", "morning"}, {"horas de silencio", "quiet"}, {"silencio", "quiet"},
	{"horario de trabajo", "work"}, {"horas de trabajo", "work"}, {"horario", "work"}, {"trabajo", "work"}, {"despertar", "wake"}, {"fijar", "pin"}, {"revision diaria", "check"}, {"revision", "check"}, {"traslado", "move"}, {"mover", "move"},
	{"pasar", "move"}, {"incubadora", "incubator"}, {"dispersion", "spread"},
}

var settingBefore, settingAfter = words(`la el los las mi aviso de del`), words(`a en para las la de :`)

// settings reads "ajustar tarde 19:00" as far as the setting's name and says how
// many words it took. The value stays as typed: see settingValue.
func (g *glosser) settings() int {
	lead := g.word(0)
	if lead == "incubadora" && len(g.in) > 1 && (g.in[1].isNum || g.in[1].text[0] >= '0' && g.in[1].text[0] <= '9' || onOff[g.word(1)] != "") {
		return g.rest(g.put(0, 1, "set", "incubator"))
	}
	if !setLeads[lead] && !setCommon[lead] {
		g.eager = eagerLeads[lead] || lead == "por" && g.word(1) == "que"
		if g.eager {
			return g.task()
		}
		return 0
	}
	if len(g.in) == 1 {
		if !setLeads[lead] {
			return 0
		}
		return g.put(0, 1, "settings")
	}
	i := 1
	for settingBefore[g.word(i)] {
		i++
	}
	key, n := "", 0
	for _, s := range settingSpanish {
		if g.spells(i, s.typed) {
			key, n = s.key, len(splitSpace(s.typed))
			break
		}
	}
	said := setLeads[lead] && g.in[min(i, len(g.in)-1)].text == "paso"
	if said {
		i++
	}
	if step, k := g.taskAt(i); step != "" && len(g.in) > i+k && (strings.Count(g.in[i+k].text, "/") == 2 || said || key == "" && onOff[g.word(i+k)] == "default") {
		key, n = "step "+string(step), k
	}
	switch {
	case key == "" && setLeads[lead]:
		return g.rest(g.put(0, 1, "set"))
	case key == "", len(g.in) == i+n && !setLeads[lead]:
		return 0
	}
	g.put(0, i+n, append([]string{"set"}, splitSpace(key)...)...)
	i += n
	for i < len(g.in)-1 && settingAfter[g.word(i)] {
		i++
	}
	return g.rest(i)
}

// eagerLeads ask about a step, or answer for one, by its name.
var eagerLeads = words(`ayuda saltar omitir salta omite mio mia help why skip mine`)

// taskNames are the steps as lists and help name them, where other words than those
// of a report stand for them.
var taskNames = map[string]rules.Step{
	"buscar huevos": rules.Eggs, "sacar panal": rules.CombOut, "sacar el panal": rules.CombOut, "panal": rules.CombOut, "contar aceptadas": rules.Accept,
	"a la acabadora": rules.Finish, "contar operculadas": rules.Capped, "no tocar las celdas": rules.HandsOff, "reposo": rules.HandsOff,
	"buscar celdas de emergencia": rules.Rogue, "celdas de emergencia": rules.Rogue, "emergencia": rules.Rogue, "limpia": rules.Rogue, "armar nucleos": rules.Nucs, "pasar celdas": rules.Move,
	"revisar nacimientos": rules.Emerge, "nacimientos": rules.Emerge, "no abrir los nucleos": rules.Flights, "vuelos": rules.Flights,
	"buscar postura": rules.Laying, "capturar reinas": rules.Catch, "captura": rules.Catch, "reponer celdas": rules.Recell, "panal de zangano": rules.Drones,
	"alimento": rules.Feed, "traslado": rules.Move, "mover celdas": rules.Move,
}

// taskAt finds the step that is named at i, and by how many words.
func (g *glosser) taskAt(i int) (step rules.Step, n int) {
	name := ""
	for k := i; k < len(g.in) && k < i+longestPhrase; k++ {
		name = joinWords(name, g.word(k))
		if s := taskNames[name]; s != "" {
			step, n = s, k-i+1
		}
		if g.in[k].comma {
			break
		}
	}
	if v := spanish.single[g.at(i)]; step == "" && v != nil {
		for _, w := range v.words {
			if s := stepWords[w]; s != "" {
				step, n = s, 1
			}
		}
	}
	return step, n
}

// task reads the step that stands after "ayuda", "por qué" or "saltar".
func (g *glosser) task() int {
	n := g.phrase(0)
	if n == 0 || n >= len(g.in) || g.in[n-1].comma {
		return n
	}
	i := n
	for i < len(g.in)-1 && taskBefore[g.word(i)] {
		i++
	}
	step, k := g.taskAt(i)
	if step == "" {
		return n
	}
	g.put(n, i-n+k, string(step))
	return i + k
}

var taskBefore = words(`con sobre para el la los las de del lo`)

// rest leaves the words from i on as they are typed.
func (g *glosser) rest(i int) int {
	for ; i < len(g.in); i++ {
		g.in[i].firm = true
		g.out = append(g.out, g.in[i])
	}
	return i
}

// word is the word at i as Spanish, or as it stands.
func (g *glosser) word(i int) string {
	if w := g.at(i); w != "" && w != "#" || i >= len(g.in) {
		return w
	}
	return g.in[i].text
}

func (g *glosser) spells(i int, phrase string) bool {
	for _, w := range splitSpace(phrase) {
		if g.word(i) != w {
			return false
		}
		i++
	}
	return true
}

// onOff are the values of settings that are words; dayNames are among the glosses.
var onOff = map[string]string{
	"si": "on", "encendido": "on", "encendida": "on", "no": "off", "apagado": "off", "apagada": "off", "normal": "default", "defecto": "default",
	"espanol": "es", "ingles": "en", "ambos": "en+es", "ninguno": "none", "ninguna": "none", "nada": "none",
}

var decimalComma = regexp.MustCompile(`(\d),(\d)`)

// settingValue puts the value of a setting, as it was typed, into the words that
// settings have, whatever language it is in.
func (d *reader) settingValue(key, typed string) string {
	switch {
	case key == "zone":
		return typed
	case key == "incubator", key == "spread", strings.HasPrefix(key, rules.StepSetting):
		typed = decimalComma.ReplaceAllString(typed, "$1.$2")
	}
	ws := strings.Fields(strings.ToLower(spokenHours(typed)))
	out := ws[:0]
	for _, w := range ws {
		f := fold(strings.Trim(w, ",.;"))
		switch v := spanish.single[f]; {
		case onOff[f] != "":
			w = onOff[f]
		case v != nil && len(v.words) == 1 && isWeekday(v.words[0]):
			w = v.words[0]
		case d.r.lang == "es" && f == "y":
			w = "and"
		case d.r.lang == "es" && (f == "a" || f == "hasta"):
			w = "to"
		case d.r.lang == "es" && (f == "de" || f == "las" || f == "los" || f == "por" || f == "el"):
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// saidHour is an hour as it is said in Spanish: "6 y media", "10 de la noche".
var saidHour = regexp.MustCompile(`(?i)\b(\d{1,2})(:\d\d)?( y media| y cuarto)?( de la (?:mañana|manana|madrugada|tarde|noche))?\b`)

// spokenHours writes such hours with figures.
func spokenHours(typed string) string {
	return saidHour.ReplaceAllStringFunc(typed, func(s string) string {
		m := saidHour.FindStringSubmatch(s)
		half, part := strings.TrimSpace(strings.ToLower(m[3])), strings.ToLower(m[4])
		if half == "" && part == "" || half != "" && m[2] != "" {
			return s
		}
		out := m[1] + m[2]
		switch half {
		case "y media":
			out += ":30"
		case "y cuarto":
			out += ":15"
		}
		switch evening := strings.HasSuffix(part, "tarde") || strings.HasSuffix(part, "noche"); {
		case part == "":
			return out
		case evening && (m[1] != "12" || strings.HasSuffix(part, "tarde")):
			return out + "pm"
		default:
			return out + "am" // twelve at night is midnight
		}
	})
}

func spanishWeekday(w string) bool {
	v := spanish.single[w]
	return v != nil && len(v.words) == 1 && isWeekday(v.words[0])
}

func isWeekday(w string) bool { _, ok := weekdays[w]; return ok }
