package bot

import (
	"strings"
	"testing"
	texttemplate "text/template"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every sentence of the catalogue is filled as text/template would fill it.
func TestHolesAreFilledAsTemplatesAre(t *testing.T) {
	for _, lang := range Languages {
		v := voice{lang: lang}
		for id, forms := range catalogue(t, lang) {
			for _, text := range forms {
				data, kv := map[string]any{}, []any{}
				for i, hole := range holes(text) {
					name := strings.TrimSuffix(strings.TrimPrefix(hole, "{{."), "}}")
					if name == "Mark" {
						continue // worded in its own way
					}
					data[name] = i
					if i%2 == 0 {
						data[name] = "<" + name + "> {{.Other}}" // what somebody may be called
					}
					kv = append(kv, name, data[name])
				}
				want := strings.Builder{}
				require.NoError(t, texttemplate.Must(texttemplate.New(id).Parse(text)).Execute(&want, data))
				cut, err := holeCutter{}.Parse(text, "", "")
				require.NoError(t, err, id)
				got, err := cut.Execute(filling{v, kv})
				require.NoError(t, err, id)
				assert.Equal(t, want.String(), got, "%s: %s", lang, id)
			}
		}
	}
}

// A sentence that is not well formed is found when it is cut, and what fills none is seen.
func TestHolesGoneWrong(t *testing.T) {
	_, err := holeCutter{}.Parse("Batch {{.Batch is ready", "", "")
	assert.ErrorContains(t, err, "not closed")
	cut, err := holeCutter{}.Parse("Batch {{.Batch}} is ready", "", "")
	require.NoError(t, err)
	_, err = cut.Execute(map[string]any{"Batch": 12})
	assert.Error(t, err)
	got, err := cut.Execute(filling{voice{lang: "en"}, []any{"Number", 12}})
	require.NoError(t, err)
	assert.Equal(t, "Batch <no value> is ready", got)
	// The last of two values of one name counts.
	got, err = cut.Execute(filling{voice{lang: "en"}, []any{"Batch", 12, "Batch", 13}})
	require.NoError(t, err)
	assert.Equal(t, "Batch 13 is ready", got)
}
