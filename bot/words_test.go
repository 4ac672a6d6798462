package bot

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/bot/conversation"
	"yardbell/bot/wording"
	"yardbell/rules"
)

// source is all Go code of this package but its tests.
func source(t *testing.T) string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	rooms, err := filepath.Glob("*/*.go")
	require.NoError(t, err)
	files = append(files, rooms...)
	var b strings.Builder
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		code, err := os.ReadFile(f)
		require.NoError(t, err)
		b.Write(code)
	}
	return b.String()
}

// families are the ids that code puts together from a prefix and a name.
func families() map[string][]string {
	var days, months, steps, past, stakes, forms, helps, asks, bring, over []string
	for d := 0; d < 7; d++ {
		days = append(days, strconv.Itoa(d))
	}
	for m := 1; m <= 12; m++ {
		months = append(months, strconv.Itoa(m))
	}
	for _, s := range append(append([]rules.Step{}, rules.Steps...), rules.Add, rules.Dearth, rules.Flow, rules.Ordered, rules.Virgin, rules.Retire, rules.Temp, rules.Placed, rules.Queenless, rules.Brood) {
		steps = append(steps, string(s))
	}
	for s := range wording.BatchSteps {
		past = append(past, string(s))
	}
	seen := map[string]bool{}
	for _, r := range rules.DefaultTable().Rows {
		if !seen[r.Stake] {
			seen[r.Stake] = true
			stakes = append(stakes, r.Stake)
		}
	}
	for _, s := range rules.Steps {
		if s == rules.HandsOff || s == rules.Flights {
			continue // guards: nothing is logged of them
		}
		forms, helps = append(forms, string(s)), append(helps, string(s))
	}
	var nucs []string
	for _, s := range rules.NucStates {
		nucs = append(nucs, string(s))
	}
	var roundSteps, settingIDs []string
	ofStock := []string{string(rules.Marked), string(rules.Banked), string(rules.Handed), string(rules.Introduced)}
	for _, s := range rules.Steps {
		roundSteps = append(roundSteps, string(s))
	}
	for _, k := range rules.SettingNames {
		settingIDs = append(settingIDs, strings.ReplaceAll(k, " ", "-"))
	}
	return map[string][]string{
		"day_": days, "month_": months, "step_": append(slices.Clone(steps), "nuc"), "past_": append(past, "lose"), "stake_": stakes, "weekday_": days, "mark_": strings.Fields("red blue green yellow white orange black pink purple brown grey gray silver gold violet turquoise"),
		"word_": roundSteps, "key_": append([]string{"step", "own"}, settingIDs...), "value_": {"on", "off", "none", "default"},
		"form_": append(forms, "dearth", "flow", "temp", "place", "queenless", "brood", "lose", "nuc"), "help_": append(append(helps, "order", "virgin", "retire", "temp", "place", "queenless", "brood", "lose", "nuc"), wording.HelpTopics...),
		"load_": {"nucs", "nucs_some", "move", "move_some", "catch", "catch_some", "recell", "recell_some"},
		"bars_": {"accept", "capped", "nucs", "move", "emerge", "laying", "catch", "recell"},
		"unit_": {"queens", "cells"}, "o_ready_": {"queens", "cells"}, "o_tight_": {"queens", "cells"}, "o_early_": {"queens", "cells"}, "r_order_no_": {"breeder", "builder", "yard"}, "yield_stage_": {"accept", "capped", "emerge", "laying"},
		// Of queens that are caught.
		"step_?": ofStock, "form_?": ofStock, "help_?": ofStock, "subject_?": {"stock"},
		// Those below exist for some steps only; the code asks whether they do.
		"ask_count_?": append(asks, steps...), "bring_?": append(bring, steps...), "over_?": append(over, append(steps, "other")...),
		"subject_":  {"breeder", "batch", "builder", "yard", "order", "comb", "incubator", "nuc"},
		"named_":    {"breeder", "builder", "yard", "incubator", "nuc"},
		"nuc_":      nucs,
		"e_add_":    {"breeder", "builder", "yard", "incubator"},
		"head_?":    {"breeder", "batch", "order"},
		"e_":        {"dearth", "flow"},
		"l_":        {"mine", "later", "skip"},
		"b_":        {"done", "mine", "later", "skip"},
		"s_":        {"report", "sheets"},
		"ages_":     {"comb", "stated", "assumed"},
		"w_":        {"old", "poor"},
		"anchor_":   {"grafted", "confined", "laying", "emerged", "caught", "fed", "dearth", "noeggs", "laying7", "virgin", "brood"},
		"ping_":     {"eve", "open", "closing6", "closing2", "over", "noanswer", "again"},
		"lost_":     append([]string{"cells", "virgins", "queens"}, rules.Causes...),
		"r_cannot_": {conversation.InIncubator, conversation.OtherWork},
		"topic_":    wording.HelpTopics,
		"r_":        append([]string{"amend_after", "lost_most"}, refusalCodes...),
	}
}

// refusalCodes are those of package rules; TestRefusalsOfRules finds a new one.
var refusalCodes = []string{
	"lost_before", "lost_elsewhere", "lost_more", "overdrawn", "short_of",
	"future", "long_ago", "count_absurd", "count_zero", "more_than_of", "count_many", "confined_already", "not_confined", "before_confined",
	"age_absurd", "larvae_old", "no_such_comb", "graft_before_confined", "graft_eggs", "before_graft", "more_than", "of_differs",
	"more_than_nucs", "more_at", "too_early", "less_than", "set_bad", "set_unknown", "set_clash", "set_nowork",
	"more_than_stock", "more_than_got", "more_than_bank", "more_than_hand", "mark_colour", "tags_count", "tag_taken",
}

var idForm = regexp.MustCompile(`"([a-z][a-z0-9]*(?:[_-][a-z0-9-]+)*_?)"`)

// Every id that code uses has its message, and no message lies about unused.
func TestEveryWordIsUsed(t *testing.T) {
	words, code := catalogue(t, "en"), source(t)
	used := map[string]bool{}
	for _, m := range idForm.FindAllStringSubmatch(code, -1) {
		used[m[1]] = true
	}
	for prefix, names := range families() {
		optional := strings.HasSuffix(prefix, "?")
		prefix = strings.TrimSuffix(prefix, "?")
		for _, n := range names {
			id := prefix + n
			used[id] = true
			if !optional {
				assert.Contains(t, words, id)
			}
		}
	}
	for id := range words {
		assert.True(t, used[id], "%s is used nowhere", id)
	}
	// Ids spelled whole in a call.
	call := regexp.MustCompile(`\b(?:[sS]ay|ask|fail|join|offer)\("([a-z0-9_-]+)"[,)]`)
	for _, m := range call.FindAllStringSubmatch(code, -1) {
		assert.Contains(t, words, m[1])
	}
}

// A refusal code of package rules without a sentence would show its bare id.
func TestRefusalsOfRules(t *testing.T) {
	files, err := filepath.Glob("../rules/*.go")
	require.NoError(t, err)
	found := map[string]bool{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`\brefuse\("([a-z_]+)"`).FindAllStringSubmatch(string(b), -1) {
			found[m[1]] = true
		}
	}
	var list []string
	for code := range found {
		list = append(list, code)
	}
	assert.ElementsMatch(t, list, refusalCodes)
}

// unreached are the sentences that no script can bring about: a fault of our own,
// and days to leave things alone, which no message names yet.
var unreached = map[string]bool{"r_internal": true, "r_guard": true}

var holeForm = regexp.MustCompile(`\{\{\.[A-Za-z]+\}\}`)

// Each refusal has a script that shows its sentence. TestConversations holds that a Spanish
// crew is told the same.
func TestEveryRefusalIsShown(t *testing.T) {
	shown := map[string]bool{}
	for _, end := range []string{".out", ".jsonl"} { // with the ids of all sentences, and of whole ones
		files, err := filepath.Glob("../testdata/conversations/*" + end)
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, f := range files {
			b, err := os.ReadFile(f)
			require.NoError(t, err)
			for _, id := range refusalForm.FindAllString(string(b), -1) {
				shown[id] = true
			}
		}
	}
	for id := range catalogue(t, "en") {
		if strings.HasPrefix(id, "r_") && !unreached[id] {
			assert.True(t, shown[id], "no script shows %s", id)
		}
	}
}

var refusalForm = regexp.MustCompile(`\br_[a-z0-9_-]+`)
