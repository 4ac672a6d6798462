package apidouble

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// spec is the description of the API that requests are held against.
type spec struct {
	Methods    map[string]specMethod `json:"methods"`
	Types      map[string]specType   `json:"types"`
	Unexpanded []string              `json:"unexpanded_types"`

	opaque map[string]bool
}

type specMethod struct {
	Returns []string    `json:"returns"`
	Fields  []specField `json:"fields"`
	Limits  specLimits  `json:"limits"`
}

type specType struct {
	Subtypes []string    `json:"subtypes"`
	Fields   []specField `json:"fields"`
}

type specField struct {
	Name     string     `json:"name"`
	Types    []string   `json:"types"`
	Required bool       `json:"required"`
	Limits   specLimits `json:"limits"`
}

type specLimits struct {
	Min      *int64 `json:"min"`
	Max      *int64 `json:"max"`
	MinChars *int   `json:"min_chars"`
	MaxChars *int   `json:"max_chars"`
	MinBytes *int   `json:"min_bytes"`
	MaxBytes *int   `json:"max_bytes"`
	MaxCount *int   `json:"max_count"`
	Counted  string `json:"counted"`

	MaxMB          int64 `json:"max_mb"`
	MaxWidthHeight int   `json:"max_width_plus_height"`
	MaxAspectRatio int   `json:"max_aspect_ratio"`
}

// specFile is looked for from the folder the process was started in upwards, since
// an embed directive cannot leave its package. A test runs in its own folder, so
// that finds it; the start is remembered because a test may change folders later.
var specFile = filepath.Join("testdata", "botapi", "botapi-subset.json")

var startedIn, startedErr = os.Getwd()

var loadSpec = sync.OnceValues(func() (*spec, error) {
	if startedErr != nil {
		return nil, startedErr
	}
	for dir := startedIn; ; dir = filepath.Dir(dir) {
		data, err := os.ReadFile(filepath.Join(dir, specFile))
		if err == nil {
			return parseSpec(data)
		}
		if dir == filepath.Dir(dir) {
			return nil, fmt.Errorf("no %s in or above the folder the test runs in", specFile)
		}
	}
})

func parseSpec(data []byte) (*spec, error) {
	var s spec
	if err := json.Unmarshal(data, &s); err != nil {
		return nil, fmt.Errorf("%s: %w", specFile, err)
	}
	s.opaque = map[string]bool{}
	for _, name := range s.Unexpanded {
		s.opaque[name] = true
	}
	return &s, nil
}

func (s *spec) field(fields []specField, name string) (specField, bool) {
	for _, f := range fields {
		if f.Name == name {
			return f, true
		}
	}
	return specField{}, false
}
