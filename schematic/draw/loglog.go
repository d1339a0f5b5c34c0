package draw

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

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
	Rings           []XY // circled places
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

// Chart draws a chart with its legend, its notes and the caution.
func Chart(c LogLog) *List {
	p := &plotter{LogLog: c}
	rows := p.nameRows()
	top := chartEdge + chartTitle + 6.5 + float64(rows)*chartRow + 3
	p.field = Box{Point{chartLeft, top}, Point{chartWidth - chartEdge, top + chartField}}
	foot := p.foot()
	size := Point{chartWidth, foot}
	all := &pen{}
	all.fill(rectPath(Box{Max: size}), InkPaper)
	all.marks = append(all.marks, p.marks...)
	return &List{Size: size, Marks: all.marks}
}

// plotter draws a chart.
type plotter struct {
	LogLog
	pen
	field Box
	names []chartLabel
}

// chartLabel is the name of an upright line.
type chartLabel struct {
	line     LogLine
	x        float64 // of the line, mm
	from, to float64 // of the name, mm
	row      int
}

func (p *plotter) x(v float64) float64 {
	return p.field.Min.X + (p.field.Max.X-p.field.Min.X)*math.Log(v/p.XFrom)/math.Log(p.XTo/p.XFrom)
}

func (p *plotter) y(v float64) float64 {
	return p.field.Max.Y - (p.field.Max.Y-p.field.Min.Y)*math.Log(v/p.YFrom)/math.Log(p.YTo/p.YFrom)
}

// nameRows places the names of the upright lines above the field, in as many
// rows as they need to stay apart from each other and from the lines that lead
// up to them, and returns the count: right of their lines up to some line, left
// of them from there on, where that takes fewest rows.
func (p *plotter) nameRows() int {
	p.field = Box{Point{chartLeft, 0}, Point{chartWidth - chartEdge, 1}}
	lines := slices.DeleteFunc(slices.Clone(p.Lines), func(l LogLine) bool { return !(l.X >= p.XFrom && l.X <= p.XTo) })
	slices.SortStableFunc(lines, func(a, b LogLine) int { return cmp.Compare(a.X, b.X) })
	least, rows := math.MaxInt, 0
	for split := len(lines); split >= 0; split-- {
		names, crossed := p.place(lines, split)
		high := 0
		for _, n := range names {
			high = max(high, n.row+1)
		}
		if cost := high + len(lines)*crossed; cost < least {
			least, rows, p.names = cost, high, names
		}
	}
	return rows
}

// place puts the names of the first lines right of them, of the others left,
// each in the lowest row where it meets none placed before; crossed counts
// those that find no such row or no room on the sheet.
func (p *plotter) place(lines []LogLine, split int) (names []chartLabel, crossed int) {
	order := make([]int, 0, len(lines))
	for i := split - 1; i >= 0; i-- {
		order = append(order, i)
	}
	for i := split; i < len(lines); i++ {
		order = append(order, i)
	}
	for _, i := range order {
		n := chartLabel{line: lines[i], x: p.x(lines[i].X)}
		n.put(i < split)
		for n.row <= len(names) && slices.ContainsFunc(names, n.meets) {
			n.row++
		}
		if n.row > len(names) {
			n.row = 0
			crossed++
		}
		if n.from < chartEdge/2 || n.to > chartWidth-chartEdge/2 {
			crossed++
		}
		names = append(names, n)
	}
	return names, crossed
}

// chartNameGap is the room in mm between a name and its line or another name.
const chartNameGap = 0.8

// put lets the name stand right or left of its line.
func (n *chartLabel) put(right bool) {
	w := Measure(n.line.Label, chartName, false)
	n.from = n.x + chartNameGap
	if !right {
		n.from = n.x - chartNameGap - w
	}
	n.to = n.from + w
}

// meets reports whether two names, or the line up to one and the other name,
// cross.
func (n *chartLabel) meets(o chartLabel) bool {
	switch {
	case n.row == o.row:
		return math.Min(n.from, n.x) < math.Max(o.to, o.x)+chartNameGap && math.Min(o.from, o.x) < math.Max(n.to, n.x)+chartNameGap
	case n.row > o.row:
		return n.x > o.from-chartNameGap && n.x < o.to+chartNameGap
	}
	return o.x > n.from-chartNameGap && o.x < n.to+chartNameGap
}

// foot draws everything and returns the height of the chart.
func (p *plotter) foot() float64 {
	p.text(textAt(trim(p.Title, chartWidth-2*chartEdge, chartTitle, true), Point{chartEdge, chartEdge + CapHeight(chartTitle)}, atStart, 0, chartTitle, true, InkText))
	p.text(textAt(trim(p.Subtitle, chartWidth-2*chartEdge, chartName, false), Point{chartEdge, chartEdge + chartTitle + 3.2}, atStart, 0, chartName, false, InkFaint))
	p.grid()
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

// grid draws the decades with their numbers and, fainter, their parts.
func (p *plotter) grid() {
	f := p.field
	within := func(v, from, to float64) bool { return v >= from*(1-1e-9) && v <= to*(1+1e-9) }
	for v := decade(p.XFrom); v <= p.XTo*(1+1e-9); v *= 10 {
		for k := 1; k < 10; k++ {
			at := v * float64(k)
			if !within(at, p.XFrom, p.XTo) {
				continue
			}
			p.gridLine(polyline(Point{p.x(at), f.Min.Y}, Point{p.x(at), f.Max.Y}), k == 1)
			if k == 1 || k == 2 || k == 5 {
				p.text(textAt(tick(at), Point{p.x(at), f.Max.Y + 1.2 + CapHeight(chartName)}, atMiddle, 0, chartName, false, InkText))
			}
		}
	}
	for v := decade(p.YFrom); v <= p.YTo*(1+1e-9); v *= 10 {
		for k := 1; k < 10; k++ {
			at := v * float64(k)
			if !within(at, p.YFrom, p.YTo) {
				continue
			}
			p.gridLine(polyline(Point{f.Min.X, p.y(at)}, Point{f.Max.X, p.y(at)}), k == 1)
			if k == 1 {
				p.text(textAt(tick(at), Point{f.Min.X - 1.4, p.y(at) + CapHeight(chartName)/2}, atEnd, 0, chartName, false, InkText))
			}
		}
	}
	p.text(textAt(p.XTitle, Point{f.Max.X, f.Max.Y + 8.6}, atEnd, 0, chartName, true, InkText))
	p.text(textAt(p.YTitle, Point{chartEdge + CapHeight(chartName), f.Min.Y}, atEnd, up, chartName, true, InkText))
}

func (p *plotter) gridLine(path []Seg, decade bool) {
	if decade {
		p.stroke(path, chartGrid, InkFrame)
		return
	}
	p.dashed(path, chartGrid, InkFrame, 0.25, 0.9)
}

// tick prints a number of an axis.
func tick(v float64) string {
	round, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	return strconv.FormatFloat(round, 'f', -1, 64)
}

// decade returns the power of ten at or below a value.
func decade(v float64) float64 { return math.Pow(10, math.Floor(math.Log10(v)+1e-9)) }

// upright draws a line across the field and its name above.
func (p *plotter) upright(n chartLabel) {
	x := n.x
	y := p.field.Min.Y - 1.2 - float64(n.row)*chartRow
	p.stroke(polyline(Point{x, y - CapHeight(chartName)}, Point{x, p.field.Min.Y}), thinLine, n.line.Ink)
	p.dashed(polyline(p.field.Min.at(x), Point{x, p.field.Max.Y}), 0.35, n.line.Ink, n.line.Dash...)
	p.text(textAt(n.line.Label, Point{n.from, y}, atStart, 0, chartName, false, n.line.Ink))
}

// at returns the point at the height of q and a given x.
func (q Point) at(x float64) Point { return Point{x, q.Y} }

// band hatches what lies between two curves inside the field.
func (p *plotter) band(b LogBand) {
	low, high := p.points(b.Low), p.points(b.High)
	for x := p.field.Min.X + chartHatch/2; x < p.field.Max.X; x += chartHatch {
		from, ok := height(low, x)
		to, ok2 := height(high, x)
		if !ok || !ok2 {
			continue
		}
		from, to = math.Min(from, p.field.Max.Y), math.Max(to, p.field.Min.Y)
		if from > to {
			p.stroke(polyline(Point{x, from}, Point{x, to}), thinLine, b.Ink)
		}
	}
}

// points turns places of the chart into mm, leaving out what has none.
func (p *plotter) points(list []XY) []Point {
	var out []Point
	for _, v := range list {
		if v.X > 0 && v.Y > 0 && !math.IsInf(v.X, 1) && !math.IsInf(v.Y, 1) {
			out = append(out, Point{p.x(v.X), p.y(v.Y)})
		}
	}
	return out
}

// height returns the y of a line of points at an x; false beyond its ends.
func height(line []Point, x float64) (float64, bool) {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; x >= a.X && x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X), true
		}
	}
	return 0, false
}

// curve draws a line, cut off at the edges of the field.
func (p *plotter) curve(c LogCurve) {
	pts := p.points(c.Points)
	var path []Seg
	for i := 1; i < len(pts); i++ {
		a, b, ok := clip(pts[i-1], pts[i], p.field)
		if !ok {
			continue
		}
		if len(path) == 0 || path[len(path)-1].P != a {
			path = append(path, Seg{Verb: MoveTo, P: a})
		}
		path = append(path, Seg{Verb: LineTo, P: b})
	}
	if len(path) > 0 {
		p.dashed(path, c.Width, c.Ink, c.Dash...)
	}
}

// clip returns the part of a line inside a box (Liang and Barsky 1984).
func clip(a, b Point, in Box) (Point, Point, bool) {
	from, to := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X - in.Min.X}, {dx, in.Max.X - a.X}, {-dy, a.Y - in.Min.Y}, {dy, in.Max.Y - a.Y}} {
		switch t := e[1] / e[0]; {
		case e[0] == 0 && e[1] < 0:
			return a, b, false
		case e[0] < 0:
			from = math.Max(from, t)
		case e[0] > 0:
			to = math.Min(to, t)
		}
	}
	if from > to {
		return a, b, false
	}
	return toward(a, b, from), toward(a, b, to), true
}

// ring circles a place; one outside the field is circled at its edge.
func (p *plotter) ring(v XY) {
	at := Point{p.x(v.X), p.y(v.Y)}
	at = Point{math.Min(math.Max(at.X, p.field.Min.X), p.field.Max.X), math.Min(math.Max(at.Y, p.field.Min.Y), p.field.Max.Y)}
	p.stroke(circlePath(at, chartRingDia/2), 0.6, InkError)
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
	if len(p.Rings) > 0 {
		all = append(all, entry{func(at Point) { p.stroke(circlePath(at.add(chartLegend/2, 0), chartRingDia/2), 0.6, InkError) }, "slowest against the wire"})
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

// AxisEnds returns two ends of an axis round two values above zero: of 1, 2
// and 5 times a power of ten the next ones.
func AxisEnds(least, most float64) (from, to float64) {
	for _, k := range []float64{1, 2, 5} {
		if v := k * decade(least); v <= least*(1+1e-9) {
			from = v
		}
	}
	for _, k := range []float64{10, 5, 2, 1} {
		if v := k * decade(most); v >= most*(1-1e-9) {
			to = v
		}
	}
	return from, math.Max(to, 10*from)
}
