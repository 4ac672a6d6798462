package rules

import (
	"encoding/csv"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page shows the step table as it is, each source with it.
func TestPageShowsTheStepTable(t *testing.T) {
	page, err := os.ReadFile("README.md")
	require.NoError(t, err)
	b, err := os.ReadFile("steps.csv")
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(b)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	var want []string
	for _, c := range rows[1:] {
		require.Len(t, c, 10)
		name := strings.TrimSpace(c[0] + " " + c[1])
		want = append(want, "| "+strings.Join([]string{name, c[2], c[3], c[4], c[5], c[6], c[7], c[9]}, " | ")+" |")
	}
	_, table, ok := strings.Cut(string(page), "\n| step | anchor | earliest | best | latest | weight | kind | source |\n|---|---|---|---|---|---|---|---|\n")
	require.True(t, ok)
	table, _, _ = strings.Cut(table, "\n\n")
	assert.Equal(t, strings.Join(want, "\n"), table)
}

// The page shows the constants as they are.
func TestPageShowsTheConstants(t *testing.T) {
	page, err := os.ReadFile("README.md")
	require.NoError(t, err)
	values := map[string]float64{
		"HatchAfter": HatchAfter, "LagWithBees": LagWithBees, "LagWithout": LagWithout, "PlannedStay": PlannedStay,
		"EggToQueen": EggToQueen, "HoursPerDegree": HoursPerDegree, "SealedFrom": SealedFrom, "TooWarm": TooWarm, "TooCool": TooCool,
		"ShiftSpread": ShiftSpread, "ShiftMost": ShiftMost, "WorthHours": WorthHours, "OwnWorth": OwnWorth, "KnownLooks": KnownLooks,
		"SigmaBatch": SigmaBatch, "SigmaCell": SigmaCell, "SafeChance": SafeChance * 100,
		"FirstVirgin": FirstVirgin.Hours(), "FirstLaying": FirstLaying.Hours(),
		"DroneToFlight": DroneToFlight, "DroneDrawing": DroneDrawing, "DroneEvery": DroneEvery, "EggsPerDay": EggsPerDay, "BuilderDays": BuilderDays,
	}
	shown := map[string]float64{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([A-Za-z]+)` \\| ([0-9.]+)(?: [^|]*)?\\| ").FindAllStringSubmatch(string(page), -1) {
		shown[m[1]], err = strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
	}
	assert.InDeltaMapValues(t, values, shown, 1e-9)
}
