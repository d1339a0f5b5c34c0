package draw_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
)

func sampleChart() draw.LogLog {
	return draw.LogLog{Title: "F1 against W2", Subtitle: "blade fuse, 10 A", XTitle: "current, A", YTitle: "time, s", XFrom: 5, XTo: 200, YFrom: 1e-3, YTo: 1e5,
		Bands:  []draw.LogBand{{Low: []draw.XY{{13.5, 0.75}, {20, 0.15}, {60, 0.02}}, High: []draw.XY{{13.5, 600}, {20, 5}, {60, 0.1}}, Label: "opens", Ink: draw.InkFaint}},
		Curves: []draw.LogCurve{{Points: []draw.XY{{1, 1e6}, {20, 1e4}, {100, math.Inf(1)}, {1000, 1e-4}}, Label: "bears", Ink: draw.InkTrace, Width: 0.9}},
		Lines: []draw.LogLine{{X: 10, Label: "rating 10 A", Ink: draw.InkSymbol}, {X: 11, Label: "for good 11 A", Ink: draw.InkTrace, Dash: []float64{2, 1}},
			{X: 180, Label: "short 180 A", Ink: draw.InkError}, {X: 190, Label: "short 190 A", Ink: draw.InkError}, {X: 1e4, Label: "outside", Ink: draw.InkError}},
		Rings: []draw.XY{{20, 5}}, RingLabel: "slowest against the wire",
		Notes: []draw.LogNote{{Text: "A sentence.", Bold: true, Ink: draw.InkText}},
	}
}

func TestChartGolden(t *testing.T) { golden(t, "chart", draw.Chart(sampleChart()).Text()) }

// places returns the texts of a list with the areas they take.
func places(l *draw.List) map[string]draw.Box {
	out := map[string]draw.Box{}
	for _, m := range l.Marks {
		if x, ok := m.Op.(*draw.Text); ok {
			out[x.S] = x.Box()
		}
	}
	return out
}

func TestChartNamesStayApart(t *testing.T) {
	c := sampleChart()
	c.Lines = nil
	for _, x := range []float64{5.2, 9, 9.5, 9.8, 10, 40, 41, 120, 170, 185, 195, 199} {
		c.Lines = append(c.Lines, draw.LogLine{X: x, Label: "line " + string(rune('a'+len(c.Lines))) + ", some A", Ink: draw.InkSymbol})
	}
	l := draw.Chart(c)
	var names []draw.Box
	for s, b := range places(l) {
		assert.True(t, b.Min.X > 0 && b.Max.X < l.Size.X && b.Min.Y > 0 && b.Max.Y < l.Size.Y, "%s lies on the sheet", s)
		if strings.HasSuffix(s, ", some A") {
			for _, o := range names {
				assert.False(t, b.Touches(o), s)
			}
			names = append(names, b)
			for _, m := range l.Marks { // nor does a line run through a name
				if x, ok := m.Op.(*draw.Stroke); ok && len(x.Path) == 2 && x.Path[0].P.X == x.Path[1].P.X && x.Path[0].P.Y < b.Max.Y {
					assert.False(t, m.Bound.Touches(b), "%s is struck through", s)
				}
			}
		}
	}
	assert.Len(t, names, 12)
}

func TestChartBearsTheCautionAndKeepsToItsField(t *testing.T) {
	c := sampleChart()
	l := draw.Chart(c)
	assert.Contains(t, places(l), draw.Caution)
	assert.NotContains(t, places(l), "outside", "a line beyond the axes is not drawn")
	for _, m := range l.Marks {
		assert.True(t, m.Bound.Min.X >= 0 && m.Bound.Max.X <= l.Size.X && m.Bound.Min.Y >= 0 && m.Bound.Max.Y <= l.Size.Y, "%+v", m.Op)
		if s, ok := m.Op.(*draw.Stroke); ok && s.Ink == draw.InkTrace && s.Width == 0.9 {
			assert.LessOrEqual(t, m.Bound.Max.Y, 147.0)
			assert.GreaterOrEqual(t, m.Bound.Min.Y, 20.0)
		}
	}
}

// Axes that are none must neither hang nor leave marks that have no place.
func TestChartWithoutAxes(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, x := range [][2]float64{{0, 200}, {-1, 200}, {5, 5}, {200, 5}, {nan, 200}, {5, nan}, {5, inf}, {5e-324, 1}} {
		for _, swap := range []bool{false, true} {
			c := sampleChart()
			if c.XFrom, c.XTo = x[0], x[1]; swap {
				c.XFrom, c.XTo, c.YFrom, c.YTo = 5, 200, x[0], x[1]
			}
			l := draw.Chart(c)
			assert.Contains(t, places(l), "F1 against W2")
			assert.Contains(t, places(l), "A sentence.")
			assert.NotContains(t, places(l), "rating 10 A")
			assert.NotContains(t, l.Text(), "NaN")
		}
	}
}

func TestAxisEnds(t *testing.T) {
	for _, c := range []struct{ least, most, from, to float64 }{{5, 200, 5, 200}, {4.9, 201, 2, 500}, {1, 10, 1, 10}, {0.07, 0.08, 0.05, 0.5}, {30, 31, 20, 200}} {
		from, to := draw.AxisEnds(c.least, c.most)
		require.InDelta(t, c.from, from, 1e-9)
		require.InDelta(t, c.to, to, 1e-9)
	}
}
