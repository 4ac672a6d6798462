package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A list has an end, in whatever way it is added to; what is on it stays as it is.
func TestListsHaveAnEnd(t *testing.T) {
	var script strings.Builder
	for i := range 101 {
		fmt.Fprintf(&script, "Wren: add yard Place%c%c\n", 'a'+i/26, 'a'+i%26)
	}
	script.WriteString("Wren: add yard Placeaa 40 nucs\nWren: add builder B2\nWren: add breeder 7\nWren: graft 45 from 7 into B2\n@ +10d\nWren: moved 30 to Zeta\nWren: moved 30 to Placeaa\n")
	var out, errOut bytes.Buffer
	require.Equal(t, 0, run(t.Context(), []string{"console", "--now", "2031-04-24 08:00"}, testEnv(script.String(), &out, &errOut)), errOut.String())
	assert.Equal(t, 100, strings.Count(out.String(), ". How many nucs?"))
	assert.Equal(t, 2, strings.Count(out.String(), "There are 100 on that list, and no more than 100 can be. Nothing logged."), "the 101st, and one that is asked back")
	assert.NotContains(t, out.String(), "Added yard Placedw.")
	assert.Contains(t, out.String(), "30 moved to Placeaa")
}
