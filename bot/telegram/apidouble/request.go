package apidouble

import (
	"encoding/json"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strconv"
	"strings"
)

// call is one request, however it was encoded.
type call struct {
	method string
	params map[string]string
	files  map[string]upload
}

type upload struct {
	name string
	data []byte
}

// maxBody is above the largest upload the API takes (50 MB, docs: Bots FAQ).
const maxBody = 64 << 20

// readCall takes the parameters from wherever the API allows them: the query
// string, a form, a multipart form, or a JSON body (docs: "Making requests").
func readCall(method string, r *http.Request) (*call, error) {
	c := &call{method: method, params: map[string]string{}, files: map[string]upload{}}
	for name, values := range r.URL.Query() {
		c.params[name] = values[0]
	}
	body := io.LimitReader(r.Body, maxBody)
	kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type"))
	switch kind {
	case "application/json":
		data, err := io.ReadAll(body)
		if err != nil {
			return nil, err
		}
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(data, &fields); err != nil {
			return nil, fmt.Errorf("can't parse JSON object: %w", err)
		}
		for name, raw := range fields {
			c.params[name] = string(raw)
			var s string
			if json.Unmarshal(raw, &s) == nil && string(raw) != "null" {
				c.params[name] = s
			}
		}
	case "multipart/form-data":
		r.Body = io.NopCloser(body)
		if err := r.ParseMultipartForm(maxBody); err != nil {
			return nil, err
		}
		defer func() { _ = r.MultipartForm.RemoveAll() }()
		for name, values := range r.MultipartForm.Value {
			c.params[name] = values[0]
		}
		for name, files := range r.MultipartForm.File {
			f, err := files[0].Open()
			if err != nil {
				return nil, err
			}
			data, err := io.ReadAll(f)
			_ = f.Close()
			if err != nil {
				return nil, err
			}
			c.files[name] = upload{files[0].Filename, data}
		}
	default:
		r.Body = io.NopCloser(body)
		if err := r.ParseForm(); err != nil {
			return nil, err
		}
		for name, values := range r.PostForm {
			c.params[name] = values[0]
		}
	}
	// A read to the end lets the server notice when the client goes away.
	_, err := io.Copy(io.Discard, r.Body)
	return c, err
}

// has says whether a parameter was given. A client that marshals a nil list sends
// the word null for it, which the server takes as nothing.
func (c *call) has(name string) bool {
	v, ok := c.params[name]
	return ok && v != "null"
}

// number reads an integer that the check against the spec has let through.
func (c *call) number(name string) int64 {
	n, _ := strconv.ParseInt(c.params[name], 10, 64)
	return n
}

func (c *call) id(name string) int { return int(c.number(name)) }

func (c *call) flag(name string) bool { return c.params[name] == "true" }

// decode reads a JSON parameter into v; an absent one leaves v alone.
func (c *call) decode(name string, v any) {
	if c.has(name) {
		_ = json.Unmarshal([]byte(c.params[name]), v)
	}
}

// splitPath takes /bot<token>/<method> apart.
func splitPath(path string) (token, method string, ok bool) {
	rest, ok := strings.CutPrefix(path, "/bot")
	if !ok {
		return "", "", false
	}
	token, method, ok = strings.Cut(rest, "/")
	return token, method, ok && token != "" && method != ""
}
