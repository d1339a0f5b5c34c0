package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// W4 lies behind a fuse block's fuse, W1 before any.
func TestThePlotOfAFuseAgainstItsWire(t *testing.T) {
	r := newRig(t, lampsFile)
	assert.False(t, r.actions.Find("check.plot").IsEnabled(), "nothing is selected")
	r.choose(r.named("W4"))
	require.True(t, r.actions.Find("check.plot").IsEnabled())
	p := r.openPlot()
	require.NotNil(t, p.list)
	assert.Equal(t, "W4", p.which.Selected)
	assert.False(t, p.said.Visible())
	frame := p.chart.paint(300, 200)
	ground := frame.At(150, 2)
	seen := false
	for y := range 200 {
		for x := range 300 {
			seen = seen || frame.At(x, y) != ground
		}
	}
	assert.True(t, seen, "it is painted")

	r.tap("Save as PDF, PNG or SVG…")
	for i, end := range []string{".svg", ".png", ".pdf"} {
		path := filepath.Join(t.TempDir(), "plot"+end)
		if i > 0 {
			p.save()
		}
		input := r.win.Canvas().Focused().(*entry)
		assert.True(t, strings.HasSuffix(input.Text, "-W4.pdf"), input.Text)
		input.SetText("plot.txt")
		r.tap("Save")
		require.True(t, r.boxOpen(), "of no format")
		input.SetText(path)
		r.tap("Save")
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Greater(t, info.Size(), int64(1000))
		r.tap("Close")
	}
}

func TestAPlotThatCannotBeSaysWhy(t *testing.T) {
	r := newRig(t, lampsFile)
	var name string
	for w := range r.doc().Wires() {
		if r.doc().Part(w.A.Part).Name == "G1" || r.doc().Part(w.B.Part).Name == "G1" {
			name = w.Name
		}
	}
	r.choose(r.named(name))
	p := r.openPlot()
	require.Nil(t, p.list)
	assert.True(t, p.said.Visible())
	assert.Contains(t, p.said.Text, name)
	p.chart.paint(30, 20)
	r.tap("Close")
	require.False(t, r.boxOpen())
}
