package draw

import "math"

// LogLog is a chart on double logarithmic paper: x in A from left to right, y
// in s from bottom to top. What lies outside the axes is cut off.
type LogLog struct {
	Title, Subtitle string
	XTitle, YTitle  string
	XFrom, XTo      float64
	YFrom, YTo      float64
	Bands           []LogBand
	Curves          []LogCurve
	Lines           []LogLine
	Rings           []XY   // circled places
	RingLabel       string // of all of them in the legend; empty for none
	Notes           []LogNote
}

// XY is a place in a chart.
type XY struct{ X, Y float64 }

// LogBand is what lies between two curves, hatched.
type LogBand struct {
	Low, High []XY // rising in x
	Label     string
	Ink       Ink
}

// LogCurve is a line through points rising in x.
type LogCurve struct {
	Points []XY
	Label  string // in the legend; empty for none
	Ink    Ink
	Width  float64 // mm
	Dash   []float64
}

// LogLine is an upright line at an x, named above the chart.
type LogLine struct {
	X     float64
	Label string
	Ink   Ink
	Dash  []float64
}

// LogNote is a paragraph below the chart.
type LogNote struct {
	Text string
	Bold bool
	Ink  Ink
}

// Measures of a chart in mm.
const (
	chartWidth   = 210.0
	chartField   = 102.0 // height of the field
	chartEdge    = 10.0
	chartLeft    = 26.0
	chartRow     = 3.7 // of the names above the field
	chartName    = 2.5
	chartNote    = 2.4
	chartHatch   = 1.6
	chartGrid    = 0.1
	chartLegend  = 12.0 // length of a sample line
	chartTitle   = 4.2
	chartRingDia = 4.0
)

// Chart draws a chart with its legend, its notes and the caution. The field stays
// empty where an axis does not run from a number above zero to a larger one.
func Chart(c LogLog) *List {
	if !runs(c.XFrom, c.XTo) || !runs(c.YFrom, c.YTo) {
		c = LogLog{Title: c.Title, Subtitle: c.Subtitle, Notes: c.Notes}
	}
	p := &plotter{LogLog: c}
	rows := p.nameRows()
	top := chartEdge + chartTitle + 6.5 + float64(rows)*chartRow + 3
	p.field = Box{Point{chartLeft, top}, Point{chartWidth - chartEdge, top + chartField}}
	size := Point{chartWidth, p.draw()}
	all := &pen{}
	all.fill(rectPath(Box{Max: size}), InkPaper)
	all.marks = append(all.marks, p.marks...)
	return &List{Size: size, Marks: all.marks}
}

// runs reports whether an axis has decades to draw.
func runs(from, to float64) bool {
	const least, most = 1e-300, 1e300 // a decade beyond is no number any more
	return from >= least && from < to && to <= most
}

// plotter draws a chart.
type plotter struct {
	LogLog
	pen
	field Box
	names []chartLabel
}

// draw draws everything and returns the height of the chart.
func (p *plotter) draw() float64 {
	p.text(textAt(trim(p.Title, chartWidth-2*chartEdge, chartTitle, true), Point{chartEdge, chartEdge + CapHeight(chartTitle)}, atStart, 0, chartTitle, true, InkText))
	p.text(textAt(trim(p.Subtitle, chartWidth-2*chartEdge, chartName, false), Point{chartEdge, chartEdge + chartTitle + 3.2}, atStart, 0, chartName, false, InkFaint))
	if p.XTo > 0 {
		p.grid()
	}
	for _, b := range p.Bands {
		p.band(b)
	}
	for _, n := range p.names {
		p.upright(n)
	}
	for _, c := range p.Curves {
		p.curve(c)
	}
	for _, r := range p.Rings {
		p.ring(r)
	}
	p.stroke(rectPath(p.field), plainLine, InkFrame)
	y := p.legend(p.field.Max.Y + 13)
	wide := chartWidth - 2*chartEdge
	for _, n := range p.Notes {
		for _, s := range wrap(n.Text, wide, chartNote, n.Bold, 6) {
			y += chartNote * lineSpace
			p.text(textAt(s, Point{chartEdge, y}, atStart, 0, chartNote, n.Bold, n.Ink))
		}
		y += 1.2
	}
	y += 1
	for _, s := range wrap(Caution, wide, cautionSize, false, 0) {
		y += cautionSize * lineSpace
		p.text(textAt(s, Point{chartEdge, y}, atStart, 0, cautionSize, false, InkText))
	}
	return math.Ceil(y + chartEdge*0.6)
}

// legend explains lines, band and ring in columns and returns where it ends.
func (p *plotter) legend(y float64) float64 {
	type entry struct {
		draw  func(Point)
		label string
	}
	var all []entry
	for _, b := range p.Bands {
		if b.Label == "" {
			continue
		}
		all = append(all, entry{func(at Point) {
			for x := 0.4; x < chartLegend; x += chartHatch {
				p.stroke(polyline(at.add(x, -1.2), at.add(x, 1.2)), thinLine, b.Ink)
			}
		}, b.Label})
	}
	for _, c := range p.Curves {
		if c.Label == "" {
			continue
		}
		all = append(all, entry{func(at Point) { p.dashed(polyline(at, at.add(chartLegend, 0)), c.Width, c.Ink, c.Dash...) }, c.Label})
	}
	if len(p.Rings) > 0 && p.RingLabel != "" {
		all = append(all, entry{func(at Point) { p.stroke(circlePath(at.add(chartLegend/2, 0), chartRingDia/2), 0.6, InkError) }, p.RingLabel})
	}
	const columns, row = 2, 5.2
	width := (chartWidth - 2*chartEdge) / columns
	for i, e := range all {
		at := Point{chartEdge + float64(i%columns)*width, y + float64(i/columns)*row}
		e.draw(at)
		p.text(textAt(trim(e.label, width-chartLegend-4, chartName, false), at.add(chartLegend+2, CapHeight(chartName)/2), atStart, 0, chartName, false, InkText))
	}
	return y + float64((len(all)+columns-1)/columns)*row - 1.5
}
