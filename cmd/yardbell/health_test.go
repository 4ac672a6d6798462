package main

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestHealthCommand(t *testing.T) {
	status, body := http.StatusOK, "ok"
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		assert.Equal(t, "/healthz", r.URL.Path)
		w.WriteHeader(status)
		_, _ = w.Write([]byte(body + "\n"))
	}))
	at := strings.TrimPrefix(s.URL, "http://")
	ask := func(args ...string) (int, string, string) {
		var out, errOut bytes.Buffer
		code := run(t.Context(), append([]string{"health"}, args...), testEnv("", &out, &errOut))
		return code, out.String(), errOut.String()
	}
	code, out, _ := ask("--at", at)
	assert.Equal(t, 0, code)
	assert.Equal(t, "ok\n", out)
	status, body = http.StatusServiceUnavailable, "the chat's server has not answered for 6m0s"
	code, _, errOut := ask("--at", at)
	assert.Equal(t, 1, code)
	assert.Equal(t, "yardbell: the chat's server has not answered for 6m0s\n", errOut)
	s.Close()
	code, _, errOut = ask("--at", at)
	assert.Equal(t, 1, code)
	assert.Contains(t, errOut, "no answer from")
	code, _, _ = ask("--at", "nowhere")
	assert.Equal(t, 2, code)
}
