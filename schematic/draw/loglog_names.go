package draw

import (
	"cmp"
	"math"
	"slices"
)

// chartLabel is the name of an upright line.
type chartLabel struct {
	line     LogLine
	x        float64 // of the line, mm
	from, to float64 // of the name, mm
	row      int
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

// upright draws a line across the field and its name above.
func (p *plotter) upright(n chartLabel) {
	x := n.x
	y := p.field.Min.Y - 1.2 - float64(n.row)*chartRow
	p.stroke(polyline(Point{x, y - CapHeight(chartName)}, Point{x, p.field.Min.Y}), thinLine, n.line.Ink)
	p.dashed(polyline(p.field.Min.at(x), Point{x, p.field.Max.Y}), 0.35, n.line.Ink, n.line.Dash...)
	p.text(textAt(n.line.Label, Point{n.from, y}, atStart, 0, chartName, false, n.line.Ink))
}
