package check_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

// full is a harness full of mistakes, many of them with remedies that take a
// network to find.
func full(t testing.TB) *schematic.Doc {
	return doc(t, strings.NewReplacer("2.5mm2", "0.35mm2", "4mm2", "0.35mm2", "watt=3", "watt=60").Replace(bigPlan(100)))
}

func TestRemediesComeAfterTheSameFindings(t *testing.T) {
	n := netlist.Build(full(t))
	sols := n.SolveAll()
	report := check.Look(n, sols)
	first := report.Findings()
	stopped := check.Look(n, sols).Remedies(func() bool { return true })
	assert.Equal(t, first, stopped, "when it is stopped, the findings are there as they are")

	mended := report.Remedies(func() bool { return false })
	assert.Equal(t, check.Run(n, sols), mended)
	require.Len(t, mended, len(first))
	more := 0
	for i := range first {
		had := len(first[i].Fixes)
		more += len(mended[i].Fixes) - had
		mended[i].Fixes = mended[i].Fixes[:had:had]
		if had == 0 {
			mended[i].Fixes = nil
		}
	}
	assert.Equal(t, first, mended, "nothing but remedies is added")
	assert.Greater(t, more, 5)
}

// The remedies of one version of a drawing are worked out while the next one is
// solved already: with -race this finds what the two share.
func TestRemediesBesideTheNextEdit(t *testing.T) {
	d := full(t)
	var study netlist.Study
	n, sols := study.Solve(d)
	report := check.Look(n, sols)
	want := check.Run(n, sols)
	done := make(chan []check.Finding)
	go func() { done <- report.Remedies(func() bool { return false }) }()
	k, ok := d.Named("W20")
	require.True(t, ok)
	w := *d.Wire(k.ID)
	w.Size = unit.MM2(6)
	n, sols = study.Solve(d.With(schematic.Put{Key: w.Key(), Item: &w}))
	check.Look(n, sols)
	assert.Equal(t, want, <-done)
}
