package ui

import (
	"math"

	"loomwright/schematic"
)

// Sizes of the staircase in window points.
const (
	axisWidth   = 58
	treadMin    = 56  // a name and a voltage are readable
	treadMax    = 132 // wider treads look empty
	loadMin     = 96
	loadMax     = 220
	spanHeight  = 17 // lines of what a stretch of the way loses or carries
	captionLine = 13
	leastStep   = 1.5
)

// tread is what the staircase draws as one step: a piece of the circuit, or
// several neighbours that hardly lose anything.
type tread struct {
	first, n int // steps
	x, w     float32
}

// stairPlan is the staircase laid out: treads from left to right, and heights.
type stairPlan struct {
	steps   []step
	treads  []tread
	load    int     // the step that uses most, or -1
	worst   int     // the step that loses most without being a load, or -1
	perVolt float64 // points
	loadCut float64 // V of a load that are drawn; the rest is left out
}

// planStairs fits a circuit into an area. Neighbours with small drops become
// one tread where joined is set, unless opened names the first of them; the
// more of them, the narrower the area is. With losses the loads are cut short,
// so that the losses fill the height.
func planStairs(steps []step, width, height float32, joined bool, opened map[schematic.Key]bool, losses bool) stairPlan {
	p := stairPlan{steps: steps, load: heaviest(steps), worst: worstLoss(steps)}
	limit := 0.0
	if p.worst >= 0 {
		limit = max(0.005, 0.05*steps[p.worst].drop())
	}
	for {
		p.treads = joinSteps(steps, limit, joined, nil)
		if !joined || p.width() <= width || p.worst < 0 || limit > steps[p.worst].drop() {
			break
		}
		limit *= 1.4
	}
	if len(opened) > 0 { // the others stay as they are
		p.treads = joinSteps(steps, limit, joined, opened)
	}
	p.place(width)
	p.scale(height, losses)
	return p
}

// joinSteps puts neighbours that lose less than the limit together.
func joinSteps(steps []step, limit float64, joined bool, opened map[schematic.Key]bool) []tread {
	small := func(i int) bool {
		s := steps[i]
		return joined && s.known && !s.load && !s.open && math.Abs(s.drop()) < limit
	}
	var out []tread
	for i := 0; i < len(steps); {
		n := 1
		if small(i) && !opened[steps[i].key] {
			for i+n < len(steps) && small(i+n) {
				n++
			}
		}
		if opened[steps[i].key] && small(i) { // the whole run stays apart
			for i < len(steps) && small(i) {
				out = append(out, tread{first: i, n: 1})
				i++
			}
			continue
		}
		out = append(out, tread{first: i, n: n})
		i += n
	}
	return out
}

func (p *stairPlan) least(t tread) float32 {
	if p.steps[t.first].load {
		return loadMin
	}
	return treadMin
}

// width is the room the treads need.
func (p *stairPlan) width() float32 {
	w := float32(axisWidth + 12)
	for _, t := range p.treads {
		w += p.least(t)
	}
	return w
}

// place gives every tread its share of the width; loads get the larger one.
func (p *stairPlan) place(width float32) {
	if len(p.treads) == 0 {
		return
	}
	spare := max(0, width-p.width())
	loads := 0
	for _, t := range p.treads {
		if p.steps[t.first].load {
			loads++
		}
	}
	plain := float32(len(p.treads) - loads)
	var perLoad, perTread float32
	if loads > 0 {
		perLoad = min(loadMax-loadMin, spare*0.3/float32(loads))
		spare -= perLoad * float32(loads)
	}
	if plain > 0 {
		perTread = min(treadMax-treadMin, spare/plain)
	}
	x := float32(axisWidth)
	for i := range p.treads {
		t := &p.treads[i]
		t.x, t.w = x, treadMin+perTread
		if p.steps[t.first].load {
			t.w = loadMin + perLoad
		}
		x += t.w
	}
}

// scale finds the height of a volt.
func (p *stairPlan) scale(height float32, losses bool) {
	var total, lost, load float64
	loads := 0
	for _, s := range p.steps {
		if !s.known {
			continue
		}
		d := math.Abs(s.drop())
		total += d
		if s.load {
			load = max(load, d)
			loads++
		} else {
			lost += d
		}
	}
	p.loadCut = math.Inf(1)
	if losses && lost > 0 && load > 0 {
		// A load takes a third of the height however much it uses.
		p.loadCut = min(load, lost/2/float64(loads))
		total = lost + p.loadCut*float64(loads)
	}
	if total > 0 && height > 0 {
		p.perVolt = float64(height) / total
	}
}

// fall is how high a step is drawn, and whether that is cut short.
func (p *stairPlan) fall(s step) (height float32, cut bool) {
	if !s.known {
		return 0, false
	}
	d := math.Abs(s.drop())
	if s.load && d > p.loadCut {
		d, cut = p.loadCut, true
	}
	return float32(d * p.perVolt), cut
}

// at returns the tread at a place across the staircase, or -1.
func (p *stairPlan) at(x float32) int {
	for i, t := range p.treads {
		if x >= t.x && x < t.x+t.w {
			return i
		}
	}
	return -1
}

// sum is the tread as one step.
func (p *stairPlan) sum(t tread) step {
	s := p.steps[t.first]
	s.to = p.steps[t.first+t.n-1].to
	return s
}

// stretch is some treads in a row.
type stretch struct {
	from, to float32 // across
	text     []string
}

// lossStretches says what is lost before and behind the load, longest words
// first.
func (p *stairPlan) lossStretches() []stretch {
	if p.load < 0 {
		return nil
	}
	var out []stretch
	lost := [2]float64{}
	known := [2]bool{true, true}
	var from, to [2]float32
	seen := [2]bool{}
	for _, t := range p.treads {
		side := 0
		switch {
		case t.first == p.load:
			continue
		case t.first > p.load:
			side = 1
		}
		if !seen[side] {
			from[side], seen[side] = t.x, true
		}
		to[side] = t.x + t.w
		for _, s := range p.steps[t.first : t.first+t.n] {
			known[side] = known[side] && s.known
			lost[side] += s.drop()
		}
	}
	for side, way := range [2]string{"on the way there", "on the way back"} {
		if seen[side] && known[side] {
			v := volts(lost[side])
			text := []string{v + " lost " + way, v + " lost", v}
			if side == 0 {
				text = append([]string{v + " lost " + way + ", " + volts(p.steps[p.load].from) + " arrive"}, text...)
			}
			out = append(out, stretch{from[side], to[side], text})
		}
	}
	return out
}

// ampStretches says where which current runs.
func (p *stairPlan) ampStretches() []stretch {
	var out []stretch
	last := math.NaN()
	for _, t := range p.treads {
		for i, s := range p.steps[t.first : t.first+t.n] {
			w := t.w / float32(t.n)
			x := t.x + float32(i)*w
			amp := s.amp
			if math.IsNaN(amp) || amp < leastShown {
				amp = 0
			}
			if len(out) > 0 && math.Abs(amp-last) <= 0.005*max(amp, last) {
				out[len(out)-1].to = x + w
				continue
			}
			last = amp
			text := ampText(s)
			out = append(out, stretch{x, x + w, []string{text + " flow here", text}})
			if amp == 0 {
				out[len(out)-1].text = []string{text, "0 A"}
			}
		}
	}
	return out
}

// heaviest returns the load that uses most, or -1.
func heaviest(steps []step) int {
	at, most := -1, 0.0
	for i, s := range steps {
		if s.load && s.known && (at < 0 || s.drop() > most) {
			at, most = i, s.drop()
		}
	}
	return at
}

// worstLoss returns the step that loses most without being a load, or -1.
func worstLoss(steps []step) int {
	at, most := -1, 0.0
	for i, st := range steps {
		if st.known && !st.load && !st.open && st.drop() > most {
			at, most = i, st.drop()
		}
	}
	return at
}
