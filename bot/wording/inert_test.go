package wording

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWriteJSON(t *testing.T) {
	for in, want := range map[string]string{
		"North": `"North"`, "ñ 小 \U0001F41D": `"ñ 小 ` + "\U0001F41D" + `"`, "a\x7fb\u009b2J": `"a\u007fb\u009b2J"`, "\u202e\u200b": `"\u202e\u200b"`, "\x1b[": `"\u001b["`,
		"\U000e0041": `"\udb40\udc41"`, "<b>&\n": `"\u003cb\u003e\u0026\n"`,
	} {
		var b bytes.Buffer
		require.NoError(t, WriteJSON(&b, in))
		assert.Equal(t, want+"\n", b.String())
		var back string
		require.NoError(t, json.Unmarshal(b.Bytes(), &back))
		assert.Equal(t, in, back, "it reads as it was")
	}
}

func TestInert(t *testing.T) {
	for in, want := range map[string]string{
		"x;=1": "x;'=1", "x\t=1": "x\t'=1", "x\n+1": "x\n'+1", "x\r\n-1": "x\r\n'-1", "; @a": "; '@a", "  =1": "  '=1", "\u200b=1": "'=1", "a=b; c-d": "a=b; c-d",
		"x\x1b[2J\u202e": "x[2J", "a\u2028=b": "a =b", "=": "'=", "": "",
	} {
		assert.Equal(t, want, Inert(in), "%q", in)
	}
}
