package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// Names of the limits of what loads draw in their first moment.
const (
	limitLampStart  = "lamp_start_s"
	limitMotorStart = "motor_start_s"
	limitStarts     = "fuse_starts"
)

func inrushLimits() []Limit {
	return []Limit{
		{Name: limitLampStart, Title: "time in which the surge of a filament falls to a third", Unit: "s",
			value: fixed(0.02, tables.Source{Title: "common practice, no source", Place: "some hundredths of a second", FromMemory: true})},
		{Name: limitMotorStart, Title: "time in which the surge of a motor falls to a third", Unit: "s",
			value: fixed(0.1, tables.Source{Title: "common practice, no source", Place: "small fans and pumps about a tenth of a second", FromMemory: true})},
		{Name: limitStarts, Title: "how often the loads of a fuse are switched on in its life", Unit: "count",
			value: fixed(10000, practice("several times a day for years"))},
	}
}

var inrush = Rule{
	ID:    "fuse worn by starting",
	Title: "Heat of switching on against what melts the fuse",
	Help: "In every operating state all lamps and motors behind a fuse start at once: filaments cold, motors at a standstill, the surge held back by the " +
		"resistance of the feed and falling by a third part in the time the limits give; units add the heat their part says. The sum of I²t is held against the heat that melts the fuse: above " +
		"the share it stands so many times it ages and opens one day (a warning), above all of it the first start opens it (an error).",
	Source: "fuse selection guide of a protection maker, pulse endurance, seen second-hand",
	fuses:  true,
	run: func(r *run) {
		for _, b := range r.worstBursts() {
			r.inrush(b)
		}
	},
}

// surge is the part of a load's current that dies away after switching on.
type surge struct {
	load    int
	ohm     float64 // in the first moment
	fallS   float64
	unknown bool // ohm stands for what nobody gave
}

// burst is what starts behind a fuse in an operating state.
type burst struct {
	fuse   int
	s      *netlist.Solution
	surges []surge
	i2t    float64 // heat units add, A²s
}

// mostStall is how many times its running current a motor draws at a standstill
// at most: more than any on record (common practice, no source). It stands in
// where the stall current is missing, and gives no verdict but a pass.
const mostStall = 12

// bursts lists what starts behind every fuse in each state, in the order of the
// branches and states.
func (r *run) bursts() []burst {
	lampS, _ := r.limit(limitLampStart)
	motorS, _ := r.limit(limitMotorStart)
	var out []burst
	for _, s := range r.usable() {
		at := map[int]int{} // fuse → index into out
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if !br.IsLoad() || br.Element.Load == "starter" || !s.Closed[i] || math.Abs(s.Amp[i]) < quiet {
				continue
			}
			x, heat, ok := r.surgeOf(s, i, lampS, motorS)
			if !ok {
				continue
			}
			feed, _ := r.flow(s).sides(i)
			for _, line := range feed.lines {
				if !isFuse(&r.n.Branches[line]) {
					continue
				}
				k, had := at[line]
				if !had {
					k = len(out)
					at[line] = k
					out = append(out, burst{fuse: line, s: s})
				}
				if x.ohm > 0 {
					out[k].surges = append(out[k].surges, x)
				}
				out[k].i2t += heat
			}
		}
	}
	return out
}

// worstBursts keeps of every fuse the burst of most heat, the first of equals.
func (r *run) worstBursts() []burst {
	var out []burst
	at, heat := map[int]int{}, map[int]float64{} // by fuse
	for _, b := range r.bursts() {
		h, _ := r.heat(b)
		k, had := at[b.fuse]
		switch {
		case !had:
			at[b.fuse], heat[b.fuse] = len(out), h
			out = append(out, b)
		case h > heat[b.fuse]:
			heat[b.fuse], out[k] = h, b
		}
	}
	return out
}

// surgeOf returns the surge of a load, or the heat its part gives; false where
// it has neither.
func (r *run) surgeOf(s *netlist.Solution, i int, lampS, motorS float64) (x surge, heat float64, ok bool) {
	br := &r.n.Branches[i]
	if v, ok := br.Value("start_a2s").Get(); ok && v > 0 {
		return surge{}, v, true
	}
	fall := motorS
	switch br.Element.Type {
	case schematic.ElemLamp:
		fall = lampS
	case schematic.ElemMotor:
	default:
		return surge{}, 0, false
	}
	volt, has := s.Across(i)
	if !has {
		return surge{}, 0, false
	}
	if amp, ok := s.InrushAmp(i); ok && amp > 0 {
		return surge{load: i, ohm: math.Abs(volt) / amp, fallS: fall}, 0, true
	}
	return surge{load: i, ohm: math.Abs(volt) / (mostStall * math.Abs(s.Amp[i])), fallS: fall, unknown: true}, 0, true
}

// heat returns the I²t in A²s of a burst above what flows for good: its surges
// begin together and die away each in its own time, held back by the feed; and
// their current in the first moment.
func (r *run) heat(b burst) (i2t, amp float64) {
	siemens := 0.0
	for _, x := range b.surges {
		siemens += 1 / x.ohm
	}
	steady := math.Abs(b.s.Amp[b.fuse])
	if siemens == 0 {
		return b.i2t, steady
	}
	held := 1.0 // share of the surges that the feed lets through
	br := &r.n.Branches[b.fuse]
	feed := math.Inf(1)
	for _, node := range []int{br.A, br.B} { // from the fuse's supply side
		if x, ok := r.prospect(cold).at(node); ok {
			feed = math.Min(feed, x.ohm)
		}
	}
	if coldOhm, _, ok := br.FuseOhm(); ok && !math.IsInf(feed, 1) {
		held = 1 / (1 + (feed+coldOhm)*siemens)
	}
	var over []float64
	for _, x := range b.surges {
		v, _ := b.s.Across(x.load)
		a := math.Max(0, held*math.Abs(v)/x.ohm-math.Abs(b.s.Amp[x.load]))
		over = append(over, a)
		amp += a
		i2t += 2 * steady * a * x.fallS
	}
	for j, x := range b.surges {
		for k, y := range b.surges {
			i2t += over[j] * over[k] / (1/x.fallS + 1/y.fallS)
		}
	}
	return i2t + b.i2t, amp + steady
}

// meltI2t returns the heat that melts a fuse in A²s: what the part says, else
// the typical value on record for blade fuses, else the early edge of the band.
func (r *run) meltI2t(br *netlist.Branch, p *calc.Protector) (float64, tables.Source) {
	if v, ok := br.Value("melt_a2s").Get(); ok && v > 0 {
		return v, tables.Source{Title: "melting heat given for the part"}
	}
	if row, ok := fuseFamily(br.Kind); ok && row.Family == tables.Blade {
		if e, _, ok := tables.FuseElement(p.RatingA); ok {
			src := tables.FuseElements().Source
			src.Place, src.FromMemory = "typical melting I²t", e.MeltMemory
			return e.MeltI2t, src
		}
	}
	return p.MeltI2t(), p.Source
}

// pulseShare is the share of its melting heat a fuse stands a number of times:
// along the logarithm of the number between the published ones, which bound it.
func pulseShare(times float64) (float64, tables.Source) {
	t := tables.FusePulses()
	first, last := t.At(0), t.At(t.Len()-1)
	switch {
	case times <= float64(first.Pulses):
		return first.Part, t.Source
	case times >= float64(last.Pulses):
		return last.Part, t.Source
	}
	for i := 1; i < t.Len(); i++ {
		p, q := t.At(i-1), t.At(i)
		if times <= float64(q.Pulses) {
			share := math.Log(times/float64(p.Pulses)) / math.Log(float64(q.Pulses)/float64(p.Pulses))
			return p.Part + (q.Part-p.Part)*share, t.Source
		}
	}
	return last.Part, t.Source
}

// worn is how a burst treats a protector.
type worn struct {
	i2t, amp, melt, share float64
	source                tables.Source
}

func (r *run) worn(b burst, br *netlist.Branch, p *calc.Protector) worn {
	w := worn{share: 1}
	w.i2t, w.amp = r.heat(b)
	w.melt, w.source = r.meltI2t(br, p)
	if br.Kind.Family != familyBreaker { // a bimetal does not age
		times, _ := r.limit(limitStarts)
		var src tables.Source
		w.share, src = pulseShare(times)
		w.source = w.source.And(src)
	}
	return w
}

func (r *run) inrush(b burst) {
	br := &r.n.Branches[b.fuse]
	p, err := r.protector(b.fuse)
	if err != nil {
		r.add(of(b.s, Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Missing: lacking(err),
			Text: fmt.Sprintf("Whether %s stands the starting of its loads is not assessed: %s.", br.Name(), reason(err))}))
		return
	}
	w := r.worn(b, br, p)
	limit := w.share * w.melt
	if w.i2t <= limit {
		return
	}
	f := of(b.s, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "A2s", Source: w.source.String()})
	var guessed, loads []int
	for _, x := range b.surges {
		if loads = append(loads, x.load); x.unknown {
			guessed = append(guessed, x.load)
		}
	}
	if len(guessed) > 0 {
		f.Severity, f.Missing = NotAssessed, "the stall current of "+list(r.names(guessed))
		f.Text = fmt.Sprintf("Whether %s stands the starting of its loads is not assessed: the stall current of %s is missing.", br.Name(), list(r.names(guessed)))
		r.add(f)
		return
	}
	f.Value, f.Limit, f.Margin = schematic.Some(w.i2t), schematic.Some(limit), schematic.Some(limit-w.i2t)
	times, _ := r.limit(limitStarts)
	f.Formula = fmt.Sprintf("%s A²s at %s in the first moment; %s · %s A²s = %s A²s", num(w.i2t), amps(w.amp), num(w.share), num(w.melt), num(limit))
	names := "its loads"
	if len(loads) > 0 {
		names = list(r.names(loads))
	}
	f.Text = fmt.Sprintf("Switching on %s sends %s A²s through %s (%s), which stands %s A²s %s times: it ages and opens one day without a fault.",
		names, num(w.i2t), br.Name(), amps(p.RatingA), num(limit), num(times))
	if w.i2t > w.melt {
		f.Severity, f.Limit, f.Margin = Error, schematic.Some(w.melt), schematic.Some(w.melt-w.i2t)
		f.Text = fmt.Sprintf("Switching on %s sends %s A²s through %s (%s), which opens at %s A²s.", names, num(w.i2t), br.Name(), amps(p.RatingA), num(w.melt))
	}
	f.remedy = func() []Fix { return r.strongerFuse(b, br) }
	r.add(f)
}

// strongerFuse offers the next rating that stands the starts and that all wires
// behind the fuse bear.
func (r *run) strongerFuse(b burst, br *netlist.Branch) []Fix {
	row, ok := fuseFamily(br.Kind)
	most := r.weakest(b.fuse)
	for i := 0; ok && i < row.Ratings(); i++ {
		amp := row.RatingA(i)
		if amp <= br.Value("amp").Or(0) || amp > most {
			continue
		}
		part := withRating(br, amp)
		p, err := r.protectorRated(br, amp)
		if err != nil || part == nil {
			return nil
		}
		if w := r.worn(b, br, p); w.i2t <= surely*w.share*w.melt {
			return []Fix{{Label: "fit " + amps(amp) + " in " + br.Name(), Items: []schematic.Item{part},
				Effect: fmt.Sprintf("it stands %s A²s as often, the wires bear at most %s", num(w.share*w.melt), amps(most))}}
		}
	}
	return nil
}
