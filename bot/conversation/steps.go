package conversation

import "yardbell/rules"

// placed are the steps that happen at a yard, builderPlaced those at a builder, marked those
// that have to do with a comb, and so with its pin.
var (
	placed        = map[rules.Step]bool{rules.Nucs: true, rules.Move: true, rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true, rules.Feed: true, rules.Drones: true, rules.Dearth: true, rules.Flow: true}
	builderPlaced = map[rules.Step]bool{rules.Graft: true, rules.Finish: true}
	marked        = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true, rules.Graft: true, "": true}
)

// stepTakes are the kinds of things that one line of each step has, beside a yard.
var stepTakes = func() map[rules.Step]map[rules.Kind]bool {
	m := map[rules.Step]map[rules.Kind]bool{}
	for _, s := range rules.Steps {
		m[s] = map[rules.Kind]bool{rules.BatchKind: true, rules.BuilderKind: true, rules.BreederKind: true}
	}
	for _, s := range []rules.Step{rules.Confine, rules.Eggs, rules.CombOut} {
		m[s] = map[rules.Kind]bool{rules.BreederKind: true}
	}
	m[rules.Graft] = map[rules.Kind]bool{rules.BreederKind: true, rules.BuilderKind: true}
	m[rules.Feed] = m[rules.Graft]
	m[rules.Rogue] = map[rules.Kind]bool{rules.BuilderKind: true, rules.BatchKind: true}
	m[rules.Drones] = map[rules.Kind]bool{rules.BuilderKind: true}
	m[rules.Dearth], m[rules.Flow] = nil, nil
	return m
}()
