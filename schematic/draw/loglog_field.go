package draw

import (
	"math"
	"strconv"
)

func (p *plotter) x(v float64) float64 {
	return p.field.Min.X + (p.field.Max.X-p.field.Min.X)*math.Log(v/p.XFrom)/math.Log(p.XTo/p.XFrom)
}

func (p *plotter) y(v float64) float64 {
	return p.field.Max.Y - (p.field.Max.Y-p.field.Min.Y)*math.Log(v/p.YFrom)/math.Log(p.YTo/p.YFrom)
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
