package main

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/pelletier/go-toml/v2"

	"yardbell/rules"
)

// config is the configuration file. Settings in it are those a new crew starts
// with; a crew that exists keeps its own.
type config struct {
	DB       string `toml:"db"`
	Rules    string `toml:"rules"`
	Zone     string `toml:"zone"`
	Language string `toml:"language"`
	Evening  string `toml:"evening"`
	Morning  string `toml:"morning"`
	Quiet    string `toml:"quiet"`
	Wake     string `toml:"wake"`
	Work     string `toml:"work"`
	DaysOff  string `toml:"days_off"`
	Move     string `toml:"move"`
}

// settings are the values that are set, by the name of the setting.
func (c config) settings() map[string]string {
	out := map[string]string{}
	for k, v := range map[string]string{"zone": c.Zone, "language": c.Language, "evening": c.Evening, "morning": c.Morning,
		"quiet": c.Quiet, "wake": c.Wake, "work": c.Work, "days off": c.DaysOff, "move": c.Move} {
		if v != "" {
			out[k] = v
		}
	}
	return out
}

// loadConfig reads a configuration file; "" gives an empty one.
func loadConfig(path string) (config, error) {
	c, faults, err := readConfig(path)
	if err != nil {
		return c, err
	}
	if len(faults) > 0 {
		return c, usage("configuration %s, %v (yardbell check --config %s lists all)", path, faults[0], path)
	}
	return c, nil
}

// readConfig reads a configuration file and finds every fault in it, with its
// line and what to put instead.
func readConfig(path string) (c config, faults []rules.LineError, err error) {
	if path == "" {
		return c, nil, nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return c, nil, usage("configuration %s cannot be read", path)
	}
	dec := toml.NewDecoder(strings.NewReader(string(data))).DisallowUnknownFields()
	err = dec.Decode(&c)
	var strict *toml.StrictMissingError
	var bad *toml.DecodeError
	switch {
	case errors.As(err, &strict):
		for _, e := range strict.Errors {
			row, _ := e.Position()
			faults = append(faults, rules.LineError{Line: row, What: fmt.Sprintf("there is no setting %q", strings.Join(e.Key(), ".")), Put: "one of db, rules, zone, language, evening, morning, quiet, wake, work, days_off, move"})
		}
	case errors.As(err, &bad):
		row, _ := bad.Position()
		return c, []rules.LineError{{Line: row, What: oneLine(bad.Error()), Put: `a line like evening = "19:00"`}}, nil
	case err != nil:
		return c, nil, usage("configuration %s: %v", path, err)
	}
	s := rules.DefaultSettings()
	for key, value := range c.settings() {
		if s.Apply(key, value, time.Time{}) != nil {
			name := strings.ReplaceAll(key, " ", "_")
			faults = append(faults, rules.LineError{Line: lineOf(string(data), name), What: fmt.Sprintf("%s cannot be %q", name, value), Put: fmt.Sprintf("%s = %q", name, rules.Example(key))})
		}
	}
	if clash := s.Clash(); clash != nil && len(faults) == 0 {
		key, _ := clash.Args["Key"].(string)
		if key == "" {
			key = "days_off"
		}
		faults = append(faults, rules.LineError{Line: lineOf(string(data), key), What: fmt.Sprintf("%s clashes with the other hours", key), Put: fmt.Sprintf("an hour outside quiet, like %s = %q", key, rules.Example(strings.ReplaceAll(key, "_", " ")))})
	}
	sortFaults(faults)
	return c, faults, nil
}

// lineOf finds the line that sets a key.
func lineOf(text, key string) int {
	for i, l := range strings.Split(text, "\n") {
		k, _, ok := strings.Cut(l, "=")
		if ok && strings.Trim(strings.TrimSpace(k), `"`) == key {
			return i + 1
		}
	}
	return 1
}
