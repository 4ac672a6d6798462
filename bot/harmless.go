package bot

import "strings"

// What people say around a report that changes nothing about it: greetings,
// courtesy, the weather, how glad they are. It is passed over only where every word
// of a clause is listed here: what is not known may take the report back.

// idleWords say nothing about the bees.
var idleWords = words(`gracias grx grax grcs graciass thx thanks saludos saludo abrazo abrazos hola holi holis ola buenas buenos
	jaja jajaja jajajaja jajaj jaj jeje jejeje jiji xd lol uf uff ufa guau wow epa hurra yupi yuju yei bravo viva felicidades felicitaciones animo
	alegria alegre contento contenta contentos contentas feliz felices emocion emocionado emocionada emocionados orgullo orgulloso orgullosa orgullosos
	puchica pucha puchis hijole orale caray caramba chuta
	maravilla belleza hermosura preciosidad chulada lindo linda lindos lindas bonito bonita bonitos bonitas hermoso hermosa hermosos hermosas
	precioso preciosa preciosos preciosas bello bella bellos bellas chulo chula chulos chulas chido chida chidos chidas chevere bacan bacano bakan
	genial geniales excelente excelentes perfecto espectacular espectaculares increible increibles impresionante impecable impecables
	fantastico fantastica fantasticos fantasticas maravilloso maravillosa maravillosos maravillosas lujo buenisimo buenisima buenisimos buenisimas rico rica
	gorditas grandotas parejitas lindisimo lindisima lindisimas lindisimos bonitas preciosisimas
	cansado cansada cansados cansadas cansancio sudado sudada sudados sudando molido molida molidos rendido bajon lastima pena tristeza triste tristes decepcion
	calor calorazo calorcito caloron frio friazo fresquito sol solazo solecito viento ventarron bochorno polvo polvareda cafe cafecito almuerzo desayuno cerveza`)

// calledWords are how people call each other.
var calledWords = words(`equipo jefe jefa jefes jefecito patron patrona muchachos muchachas chicos chicas gente amigo amiga amigos amigas compa compas compadre comadre compadres
	companeros companeras companero companera colegas raza banda familia hermano hermana carnal primo prima bro bros broder wey guey wuey weon parcero parce parceros
	maestro maestra crack cracks campeon campeona campeones tio vos loco mijo mija cuate cuates profe senores senoras todos bot`)

// particleWords are put to the end of a sentence, and into it, from habit.
var particleWords = words(`po pos pues pue che eh oe oiga oye oigan nomas noma mas jaja jajaja jeje xd lol gracias grx grax grcs thx thanks`)

// glueWords stand between idle words, and say as little only beside them.
var glueWords = words(`que el la lo los las un una de del a al y con muy re bien super tan mas mucho mucha mi mis nuestro nuestra este esta estan estamos hace hay haciendo hizo
	estuvo es son que salen salieron quedaron se ve ven todo dia dias tardes noches tarde trabajo gran buen buena bueno nivel dios por pero ya hoy aqui todas todos ambas ok okay oki okey mil muchas muchisimas feliz`)

// idleClauses are idle though their words are not.
var idleClauses = []string{
	"no lo puedo creer", "no me lo creo", "no lo podia creer", "todo bien", "todo en orden", "todo tranquilo", "todo perfecto", "todo ok", "que bueno", "que bien", "que buena",
	"menos mal", "por fin", "al fin", "gracias a dios", "lo logramos", "bien ahi", "buen trabajo", "buen dia", "que dia", "lindo dia", "lindo el dia", "muy buenas", "que tal", "que tal todos", "que hubo", "quiubo",
	"como estan", "como andan", "de lujo", "una joya", "de diez", "que padre", "esta padre", "vamos bien", "vamos equipo", "a descansar", "a desayunar", "a almorzar", "a comer", "nos vemos", "hasta luego", "un gusto",
	"ni modo", "asi es la vida", "asi es", "que se le va a hacer", "les aviso", "aviso", "les cuento", "reporte", "reporto", "les reporto", "reportando", "para que sepan", "para el registro", "para registro",
	"novedades", "va reporte", "va el reporte", "un dato", "ojo", "va mi reporte", "ahi va", "ahi les va", "les paso el dato", "mejor que nunca", "mejor de lo esperado", "esperaba mas", "esperaba menos",
	"saludos a todos", "buenas a todos", "hola a todos", "que calor", "que frio", "buenas tardes", "buenas noches", "buenos dias", "muy buenos dias", "buen dia a todos", "buenos dias a todos", "buen provecho", "con cuidado",
	"update", "info", "informe", "actualizacion", "noticias", "buenas noticias", "pero ya", "bueno pues", "y ya", "bendito dios", "que alivio", "buenisimo", "de maravilla", "nada mal", "quedo bonito", "quedaron bonitas", "quedaron lindas", "quedaron bien", "quedaron parejas", "salieron bonitas", "se ven bien", "se ven bonitas",
	"anota", "anoten", "anota por favor", "apunta", "apunten", "registra", "bot anota",
	"vamos", "arriba", "bendiciones", "exito", "exitos", "cheque", "enterados", "enterado", "copiado", "recibido", "entendido",
}

var idleClause = func() map[string]bool {
	m := map[string]bool{}
	for _, c := range idleClauses {
		m[c] = true
	}
	return m
}()

// asksAlone are idle beside a report; by themselves they ask for something.
var asksAlone = words(`informe reporte`)

// keepsAll are the words that open a message of which no word may go: a value or a
// reason stands there as typed.
var keepsAll = words(`ajustar ajusta configurar configura poner pon ponga fijar fija cambiar cambia set change agregar agrega anadir anade nuevo nueva add new incubadora
	saltar salta saltalo omitir omite omitelo skip skipped plan ayuda help por porque mi my`)

// idle reports whether the clause from a up to b says nothing about the bees.
func (g *glosser) idle(a, b int) bool {
	core, said := false, make([]string, 0, b-a)
	if a > 0 && g.lost(a, b) {
		return true
	}
	for i := a; i < b; i++ {
		w := g.in[i].text
		g.d.looks++
		if g.in[i].isNum || g.own[i] > 0 {
			return false
		}
		said = append(said, w)
	}
	if s := strings.Join(said, " "); idleClause[s] && !(b-a == len(g.in) && asksAlone[s]) || g.aside(a, b) || g.admires(a, b) || b-a < len(g.in) && g.covered(a, b) {
		return true
	}
	for _, w := range said {
		core = core || idleWords[w] || calledWords[w] && w != "todos" || particleWords[w] && len(said) == 1 && w != "mas" && w != "noma"
		if (w == "todas" || w == "todos" || w == "ambas") && !g.counts() {
			return false // "nacieron, todas lindas" says how many
		}
		if !idleWords[w] && !calledWords[w] && !glueWords[w] && !particleWords[w] {
			return false
		}
	}
	return core
}

// trim takes the idle clauses out of a message, and the calls and particles at the
// ends of the others. Of a message of nothing else all is left, and it is courtesy.
func (g *glosser) trim() {
	if len(g.in) == 0 || keepsAll[g.in[0].text] && g.head(0, len(g.in)) == 0 {
		return
	}
	g.partLost()
	drop := make([]bool, len(g.in))
	left := 0
	for a := 0; a < len(g.in); {
		b := a + 1
		for b < len(g.in) && !g.in[b-1].comma {
			b++
		}
		if g.idle(a, b) {
			for i := a; i < b; i++ {
				drop[i] = true
			}
		} else {
			left += g.ends(a, b, drop)
		}
		a = b
	}
	if left == 0 {
		g.d.r.courtesy = true
		return
	}
	in, key, own := g.in[:0:0], g.key[:0:0], g.own[:0:0]
	for i := range g.in {
		switch {
		case !drop[i]:
			in, key, own = append(in, g.in[i]), append(key, g.key[i]), append(own, g.own[i])
		case g.in[i].comma && len(in) > 0:
			in[len(in)-1].comma = true
		}
	}
	g.in, g.key, g.own = in, key, own
}

func (g *glosser) counts() bool {
	for i := range g.in {
		if g.in[i].isNum || esNumber(g.key[i]) {
			return true
		}
	}
	return false
}

// leadsOn are the words after which a call is none: "de un amigo", "con el equipo".
var leadsOn = words(`a al de del con por para pa un una unos unas el la los las mi mis tu su sus nuestro nuestra y e o que en entre sin como es son soy muy otro otra d`)

// object reports whether the word after i is no call but belongs to i.
func (g *glosser) object(i int) bool {
	return leadsOn[g.in[i].text] || g.in[i].isNum && strings.HasSuffix(g.in[i+1].text, "s") && calledWords[g.in[i+1].text]
}

// ends marks the greeting before a clause and the calls and particles after it, and
// says how many words are left.
func (g *glosser) ends(a, b int, drop []bool) int {
	can := func(i int) bool { return !g.in[i].isNum && g.own[i] == 0 }
	if w := g.in[a].text; can(a) && (w == "hola" || w == "holi" || w == "oye" || w == "oigan" || w == "buenas" || w == "buenos") {
		drop[a] = true
		for a++; a < b-1 && can(a) && (calledWords[g.in[a].text] || w[0] == 'b' && (g.in[a].text == "dias" || g.in[a].text == "tardes" || g.in[a].text == "noches")); a++ {
			drop[a] = true
		}
	}
	for i := a; i+1 < b; i++ {
		if afterPo[g.in[i].text] && (g.in[i+1].text == "po" || g.in[i+1].text == "poh" || g.in[i+1].text == "pues") && !g.in[i].comma {
			drop[i+1] = true
		}
	}
	for k := g.head(a, b); k > 0; k-- {
		drop[a] = true
		a++
	}
	for {
		k := g.tail(a, b)
		if k == 0 {
			break
		}
		for ; k > 0; k-- {
			b--
			drop[b] = true
		}
	}
	for b > a+1 && can(b-1) && !g.object(b-2) && (calledWords[g.in[b-1].text] && g.in[b-1].text != "todos" || particleWords[g.in[b-1].text] && g.in[b-1].text != "mas") {
		b--
		drop[b] = true
	}
	return b - a
}
