// Package plot turns what is known of a circuit into pictures: charts, pages of
// findings, and figures on the drawing.
//
// Start with [Guard], the chart of a fuse against its wire, [Findings] and
// [Currents].
package plot

import (
	"fmt"
	"math"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic/draw"
)

func amps(v float64) string { return unit.Format(unit.Amp, v, unit.SI) }

// The times a chart shows, s: from a thousandth to a little more than the 6 h
// of an insulation's overload.
const fromS, toS = 1e-3, 1e5

// A chart names up to mostLoads different load currents that are not below
// leastLoad of the rating: the field is for what is above it.
const (
	mostLoads = 3
	leastLoad = 0.1
)

// shown lists the load currents a chart names.
func shown(g check.GuardPlot) []check.LoadPoint {
	var out []check.LoadPoint
	for _, l := range g.Loads {
		if len(out) < mostLoads && l.Amp >= leastLoad*g.RatingA {
			out = append(out, l)
		}
	}
	return out
}

// Guard draws a fuse, link or breaker against its wire.
func Guard(g check.GuardPlot) *draw.List {
	c := draw.LogLog{
		Title:    g.FuseName,
		Subtitle: g.FuseWords,
		XTitle:   "current, A", YTitle: "time, s",
		YFrom: fromS, YTo: toS,
	}
	if g.WireName != "" {
		c.Title += " against " + g.WireName
		c.Subtitle += "; " + g.WireName + ": " + g.WireWords
	}
	least, most := g.RatingA/2, 12*g.RatingA
	for _, l := range shown(g) {
		least = math.Min(least, l.Amp)
	}
	if a, ok := g.MostA.Get(); ok {
		most = math.Max(most, 1.1*a)
	}
	if g.BearA > g.RatingA/100 {
		least = math.Min(least, g.BearA)
	}
	c.XFrom, c.XTo = draw.AxisEnds(0.9*least, most)
	curves(&c, g)
	lines(&c, g)
	notes(&c, g)
	return draw.Chart(c)
}

// curves draws the band of the protection and what the wire bears.
func curves(c *draw.LogLog, g check.GuardPlot) {
	var early, late []draw.XY
	for _, b := range g.Band {
		early, late = append(early, draw.XY{X: b.Amp, Y: b.EarlyS}), append(late, draw.XY{X: b.Amp, Y: b.LateS})
	}
	c.Bands = []draw.LogBand{{Low: early, High: late, Ink: draw.InkFaint, Label: g.FuseName + " opens between these times"}}
	c.Curves = []draw.LogCurve{
		{Points: early, Ink: draw.InkSymbol, Width: 0.25},
		{Points: late, Ink: draw.InkSymbol, Width: 0.6, Label: "latest, the edge that counts for the wire"},
	}
	if len(g.Bears) == 0 {
		return
	}
	var bears []draw.XY
	for _, b := range g.Bears {
		bears = append(bears, draw.XY{X: b.Amp, Y: b.S})
	}
	c.Curves = append(c.Curves, draw.LogCurve{Points: bears, Ink: draw.InkTrace, Width: 0.9, Label: g.WireName + " bears the current for so long"})
	if g.Worst.Amp > 0 {
		c.Rings, c.RingLabel = []draw.XY{{X: g.Worst.Amp, Y: g.Worst.S}}, "slowest against the wire"
	}
}

// lines draws the currents that stand still.
func lines(c *draw.LogLog, g check.GuardPlot) {
	add := func(a float64, ink draw.Ink, label string, dash ...float64) {
		if a > 0 {
			c.Lines = append(c.Lines, draw.LogLine{X: a, Ink: ink, Label: label + " " + amps(a), Dash: dash})
		}
	}
	if g.BearA > 0 {
		add(g.BearA, draw.InkTrace, g.WireName+" for good", 2.4, 1)
	}
	rating := "rating"
	if g.Band[0].Amp < 1.2*g.RatingA && strings.HasPrefix(g.FuseWords, "Fusible") {
		rating = "just melts at"
	}
	add(g.RatingA, draw.InkSymbol, rating, 0.8, 0.8)
	for _, l := range shown(g) {
		add(l.Amp, draw.InkCurrent, states(l.States), 2.4, 1, 0.6, 1)
	}
	if a, ok := g.ShortA.Get(); ok {
		add(a, draw.InkError, "short, far end, hot", 4, 1)
	}
	if a, ok := g.MostA.Get(); ok {
		add(a, draw.InkError, "short, near end, cold", 1.6, 1)
	}
}

// states names one state and counts the others.
func states(names []string) string {
	if n := len(names); n > 1 {
		return fmt.Sprintf("%s and %d more", names[0], n-1)
	}
	return names[0]
}

func notes(c *draw.LogLog, g check.GuardPlot) {
	ink := draw.InkText
	if g.Worst.Amp > 0 {
		ink = draw.InkError
	}
	c.Notes = append(c.Notes, draw.LogNote{Text: g.Verdict, Bold: true, Ink: ink})
	if len(g.Missing) > 0 {
		c.Notes = append(c.Notes, draw.LogNote{Text: "Not assessed: " + strings.Join(g.Missing, "; ") + ".", Ink: draw.InkText})
	}
	var rest []string
	for _, l := range g.Loads[len(shown(g)):] {
		rest = append(rest, states(l.States)+" "+amps(l.Amp))
	}
	if len(rest) > 0 {
		c.Notes = append(c.Notes, draw.LogNote{Text: "Not drawn, as they are smaller: " + strings.Join(rest, ", ") + ".", Ink: draw.InkFaint})
	}
	c.Notes = append(c.Notes, draw.LogNote{Text: "Sources: " + strings.Join(g.Sources, "; ") + ".", Ink: draw.InkFaint})
}
