package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"

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
	p.Seed, p.Insulation = seed, "FLRY"
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
