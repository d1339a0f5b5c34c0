package netlist_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/sample"
)

// plan is a plan of package sample whose mistakes end the test.
type plan struct {
	t testing.TB
	*sample.Plan
}

func newPlan(t testing.TB, seed string, more ...*schematic.Kind) plan {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	var kinds []*schematic.Kind
	for _, name := range lib.Names() {
		kinds = append(kinds, lib.Kind(name))
	}
	p := sample.NewPlan(schematic.NewLibrary(append(kinds, more...)...))
	p.Seed = seed
	return plan{t, p}
}

// doc reads the lines of a plan into a document.
func doc(t testing.TB, text string, more ...*schematic.Kind) *schematic.Doc {
	t.Helper()
	return newPlan(t, "", more...).read(text)
}

func (p plan) read(text string) *schematic.Doc {
	p.t.Helper()
	d, err := p.Read(text)
	require.NoError(p.t, err)
	return d
}

// sheet answers questions about a solved document by the names in its plan.
type sheet struct {
	t testing.TB
	*netlist.Solution
}

// solve computes the first state of a document, or the state at rest.
func solve(t testing.TB, d *schematic.Doc) sheet {
	t.Helper()
	sols := netlist.Build(d).SolveAll()
	for _, s := range sols {
		closes(t, s)
	}
	return sheet{t, sols[0]}
}

func (s sheet) ref(pin string) schematic.PinRef {
	s.t.Helper()
	part, name, _ := strings.Cut(pin, ".")
	key, ok := s.Netlist.Doc.Named(part)
	require.True(s.t, ok, part)
	return schematic.PinRef{Part: key.ID, Pin: name}
}

func (s sheet) volt(pin string) float64 {
	s.t.Helper()
	v, ok := s.VoltAt(s.Netlist.NodeOf(s.ref(pin)))
	require.True(s.t, ok, "%s has no voltage", pin)
	return v
}

func (s sheet) wire(name string) float64 {
	s.t.Helper()
	key, ok := s.Netlist.Doc.Named(name)
	require.True(s.t, ok, name)
	a, ok := s.WireAmp(key.ID)
	require.True(s.t, ok, name)
	return a
}

// branch returns the index of a branch by the name messages give it.
func (s sheet) branch(name string) int {
	s.t.Helper()
	for i := range s.Netlist.Branches {
		if s.Netlist.Branches[i].Name() == name {
			return i
		}
	}
	require.Fail(s.t, "no branch "+name)
	return -1
}

func (s sheet) amp(name string) float64 { s.t.Helper(); return s.Amp[s.branch(name)] }

// steps writes a traced way as names, open ones in brackets.
func (s sheet) steps(way []netlist.Step) string {
	var names []string
	for _, st := range way {
		name := s.Netlist.Branches[st.Branch].Name()
		if st.Open {
			name = "[" + name + "]"
		}
		names = append(names, name)
	}
	return strings.Join(names, " ")
}

func (s sheet) names(branches []int) string {
	var names []string
	for _, i := range branches {
		names = append(names, s.Netlist.Branches[i].Name())
	}
	return fmt.Sprint(names)
}
