package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
)

// GuardPlot holds a fuse, link or breaker against a wire over current and time:
// what there is to draw of it.
type GuardPlot struct {
	Fuse, Wire schematic.Key // Wire is zero where none is behind the fuse
	FuseName   string        // "F30 pin 3"
	FuseWords  string        // "Maxi blade fuse, 30 A"
	WireName   string        // "W311"
	WireWords  string        // "1 mm² FLRY, 1.9 m"

	Band    []BandPoint // rising in current
	RatingA float64     // for a link the current that just melts it
	SureA   float64     // from here on it opens in a time on record

	Bears []TimePoint // how long the wire bears a current, rising in current
	BearA float64     // what the wire bears for good; 0 is not assessed

	Loads  []LoadPoint   // of the wire, of the fuse where there is no wire; largest first
	ShortA schematic.Num // a dead short at the far end of the wire, hot
	MostA  schematic.Num // a dead short where the wire is fed, cold
	// Worst is where the protection is slowest against the wire, of what can
	// occur; zero where it is never slower.
	Worst TimePoint

	Verdict string   // one sentence with numbers
	Missing []string // what is not in the plot, and why
	Sources []string
}

// BandPoint is when a protector opens at a current: not before Early, not after
// Late, s.
type BandPoint struct{ Amp, EarlyS, LateS float64 }

// TimePoint is a time in s at a current in A.
type TimePoint struct{ Amp, S float64 }

// LoadPoint is the current of operating states that agree in it.
type LoadPoint struct {
	Amp    float64
	States []string
}

// PlotGuard returns the plot of a wire against its protection, or of a fuse,
// link or breaker against the wire it protects least. Pin tells which of a
// fuse block. It fails where the item is neither, or nothing protects the wire.
func PlotGuard(n *netlist.Netlist, sols []*netlist.Solution, item schematic.Key, pin string) (GuardPlot, error) {
	r := &run{n: n, doc: n.Doc, sols: sols}
	if item.Type == schematic.TypeWire {
		return r.plotWire(item.ID)
	}
	var fuses []int
	for _, i := range n.PartBranches(item.ID) {
		if br := &n.Branches[i]; isFuse(br) && (pin == "" || br.Pin != nil && br.Pin.Name == pin || br.Pin == nil && slices.Contains([]string{br.Element.A, br.Element.B}, pin)) {
			fuses = append(fuses, i)
		}
	}
	name := schematic.NameOf(n.Doc.Get(item))
	switch {
	case len(fuses) == 0 && pin != "":
		return GuardPlot{}, fmt.Errorf("%s has no fuse at pin %s: choose a fuse, a link, a breaker or a wire behind one", name, pin)
	case len(fuses) == 0:
		return GuardPlot{}, fmt.Errorf("%s is no fuse: choose a fuse, a link, a breaker or a wire behind one", name)
	case len(fuses) > 1:
		return GuardPlot{}, fmt.Errorf("%s holds %d fuses: say which by its pin, as %s.%s", name, len(fuses), name, pinApart(&n.Branches[fuses[0]], &n.Branches[fuses[1]]))
	}
	return r.plotFuse(fuses[0])
}

// pinApart returns a pin of a fuse that tells it from another of its part.
func pinApart(br, other *netlist.Branch) string {
	if br.Pin != nil {
		return br.Pin.Name
	}
	if e := br.Element; e.B == other.Element.A || e.B == other.Element.B {
		return e.A
	}
	return br.Element.B
}

func (r *run) plotWire(id schematic.ID) (GuardPlot, error) {
	wire := r.n.WireBranch(id)
	var best *shortWay
	risk := -1.0
	for _, w := range r.shorts() {
		if w.wire != wire {
			continue
		}
		if x := r.risk(w); best == nil || x > risk {
			best, risk = &w, x
		}
	}
	if wire < 0 || best == nil {
		return GuardPlot{}, fmt.Errorf("no fuse, link or breaker cuts %s off from all that feeds it: a source reaches it without one, or nothing feeds it", schematic.NameOf(r.n.Doc.Get(schematic.Key{Type: schematic.TypeWire, ID: id})))
	}
	return r.plot(best.by[0], best)
}

func (r *run) plotFuse(fuse int) (GuardPlot, error) {
	var best *shortWay
	risk := -1.0
	for _, w := range r.shorts() {
		if !slices.Contains(w.by, fuse) {
			continue
		}
		if x := r.risk(w); best == nil || x > risk {
			best, risk = &w, x
		}
	}
	return r.plot(fuse, best)
}

// risk orders wires behind a protector: by how many times too slow it is for
// them, else by how much of the heat they bear it lets through.
func (r *run) risk(w shortWay) float64 {
	br := &r.n.Branches[w.wire]
	h, err := r.heating(br.Wire, br.Conductor.AmbientC, r.mostCrowded(w.wire))
	ps, err2 := r.protectorsOf(w.by)
	if err != nil || err2 != nil {
		return 0
	}
	if d, _, ok := r.drawn(w); ok && len(d.by) == len(w.by) {
		switch v := r.judge(ps, h, d, true); v.outcome {
		case never:
			return 1e12
		case late, lateBetween:
			return 1e6 + v.lateS/v.bearsS
		}
	}
	return ps[0].LetThroughI2t() / h.WithstandI2t()
}

// plot gathers what there is to draw; w is nil where no wire is behind the fuse.
func (r *run) plot(fuse int, w *shortWay) (GuardPlot, error) {
	br := &r.n.Branches[fuse]
	p, err := r.protector(fuse)
	if err != nil {
		return GuardPlot{}, fmt.Errorf("%s cannot be plotted: %s", br.Name(), reason(err))
	}
	g := GuardPlot{Fuse: br.Key(), FuseName: br.Name(), RatingA: p.RatingA, SureA: p.SureA, Sources: []string{p.Source.String()}}
	g.FuseWords = fmt.Sprintf("%s, %s", br.Kind.Title, amps(p.RatingA))
	if br.Kind.Family == familyLink {
		g.FuseWords = fmt.Sprintf("%s, %s mm²", br.Kind.Title, num(br.Kind.ParamValue(br.Part, br.Pin, "link_mm2").Or(0)))
	}
	for _, a := range p.Knots() {
		g.Band = append(g.Band, BandPoint{a, p.Early(a), p.Late(a)})
	}
	if w == nil {
		g.Loads = r.loadsOf(fuse)
		g.Verdict = fmt.Sprintf("No wire relies on %s: none is behind it, or all have a smaller rating before them.", g.FuseName)
		return g, nil
	}
	g.Loads = r.loadsOf(w.wire)
	r.plotShort(&g, w, p)
	return g, nil
}

// plotShort adds the wire.
func (r *run) plotShort(g *GuardPlot, w *shortWay, p *calc.Protector) {
	br := &r.n.Branches[w.wire]
	g.Wire, g.WireName = br.Wire.Key(), br.Wire.Name
	words := []string{strings.TrimSpace(br.Wire.Size.String() + " " + br.Wire.Insulation)}
	if br.Conductor.LengthMM > 0 {
		words = append(words, mm(br.Conductor.LengthMM))
	}
	g.WireWords = strings.Join(words, ", ")
	d, _, ok := r.drawn(*w)
	if ok {
		g.ShortA, g.MostA = schematic.Some(d.wireA), schematic.Some(r.most(d))
	} else {
		u := untimed{}
		if r.reached(*w, &u) {
			if a, ok := r.fromAlternators(*w, w.by, &u); ok {
				d, g.ShortA = a, schematic.Some(a.wireA)
			}
		}
		for _, m := range u.keys {
			g.Missing = append(g.Missing, "the current of a short: "+m)
		}
	}
	h, err := r.heating(br.Wire, br.Conductor.AmbientC, r.mostCrowded(w.wire))
	if err != nil {
		g.Missing = append(g.Missing, "what the wire bears: "+reason(err))
		g.Verdict = fmt.Sprintf("Not assessed: %s.", reason(err))
		return
	}
	g.BearA = h.RatedA
	g.Sources = append(g.Sources, h.Source.String())
	if !h.ShortKnown {
		g.Missing = append(g.Missing, "the short-circuit temperature of the insulation: the curve is that for 6 h")
	}
	top := 10 * math.Max(g.Band[len(g.Band)-1].Amp/10, h.RatedA)
	const points = 160
	for i := range points + 1 {
		a := h.RatedA * 1.0005 * math.Pow(top/h.RatedA, float64(i)/points)
		g.Bears = append(g.Bears, TimePoint{a, h.BearsS(a)})
	}
	g.judge(r, w, p, h, d)
}

// judge says how it ends.
func (g *GuardPlot) judge(r *run, w *shortWay, p *calc.Protector, h *calc.Heating, d drawn) {
	if len(d.by) == 0 {
		g.Verdict = "Not assessed: " + strings.Join(g.Missing, "; ") + "."
		return
	}
	ps, err := r.protectorsOf(d.by)
	if err != nil {
		g.Verdict = fmt.Sprintf("Not assessed: %s.", reason(err))
		return
	}
	v := r.judge(ps, h, d, true)
	switch v.outcome {
	case inTime:
		bears := h.BearsS(v.amp)
		if math.IsInf(bears, 1) {
			g.Verdict = fmt.Sprintf("A dead short at the far end of %s draws %s, which it bears for good.", g.WireName, amps(v.amp))
			break
		}
		g.Verdict = fmt.Sprintf("A dead short at the far end of %s draws %s and is cut off within %s; the wire bears it for %s.", g.WireName, amps(v.amp), span(v.lateS), span(bears))
	default:
		f := r.slowFinding(*w, v, ps[v.fuse], h, d)
		g.Verdict = f.Text
		at := v.amp
		g.Worst = TimePoint{at, math.Min(v.lateS, v.bearsS)}
		if v.outcome != never {
			g.Worst.S = v.lateS
		}
	}
	if len(d.by) > 1 {
		g.Missing = append(g.Missing, "how "+list(r.names(d.by))+" share: the band is that of "+g.FuseName)
	}
}

// sameLoad is the ratio within which the currents of two states are told
// together (judgement, no source).
const sameLoad = 1.02

// loadsOf lists the currents of a branch over the operating states.
func (r *run) loadsOf(branch int) []LoadPoint {
	type load struct {
		amp   float64
		state string
	}
	var all []load
	for _, s := range r.usable() {
		if a := math.Abs(s.Amp[branch]); a > quiet {
			all = append(all, load{a, s.State.Name})
		}
	}
	slices.SortStableFunc(all, func(a, b load) int { return cmp.Compare(b.amp, a.amp) })
	var out []LoadPoint
	for _, l := range all {
		if k := len(out) - 1; k >= 0 && out[k].Amp < l.amp*sameLoad {
			out[k].States = append(out[k].States, l.state)
			continue
		}
		out = append(out, LoadPoint{l.amp, []string{l.state}})
	}
	return out
}
