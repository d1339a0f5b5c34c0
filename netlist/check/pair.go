package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

const limitPair = "pair_apart_mm"

func pairLimits() []Limit {
	return []Limit{{Name: limitPair, Title: "longest wire of a sensor's pair that may lie apart", Unit: "mm", value: fixed(100, practice("stubs at connectors and splices"))}}
}

var pairTwist = Rule{
	ID:    "pair neither twisted nor screened",
	Title: "Wires of sensors that pick up disturbances",
	Help: "Coil sensors, such as those at wheels and toothed rings, give millivolts: their two wires are twisted with each other or lie under one screen. " +
		"The signal of a sensor with a screen pin lies under a screen. Short pieces at connectors and splices are exempt.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil {
				r.pairOf(p)
			}
		}
	},
}

// pairOf looks at the wires of a sensor.
func (r *run) pairOf(p *schematic.Part) {
	var pair, signals []int // nets
	screened := false
	for _, pin := range r.doc.PinsOf(p) {
		i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
		if i < 0 || r.n.Nodes[i].Inner {
			continue
		}
		switch r.signal(&r.n.Nodes[i]) {
		case "pair":
			pair = append(pair, r.n.Nodes[i].Net)
		case "output":
			signals = append(signals, r.n.Nodes[i].Net)
		case "screen":
			screened = true
		}
	}
	if k := r.doc.KindOf(p); k.OwnPins {
		screened = false // a unit: its screen pin belongs to the sensors
	}
	limit, src := r.limit(limitPair)
	switch {
	case len(pair) == 2 && pair[0] != pair[1]:
		a := r.untwisted(pair[0], pair[1], limit, true)
		a.fixes = r.twisted(a, pair[0], pair[1])
		r.apart(p, a, func(n int) string { return "neither twisted with " + partnerWord(n) + " nor under a screen together" }, limit, src.String())
	case screened:
		var a apart
		for _, net := range slices.Compact(signals) {
			for _, w := range r.n.Nets[net].Wires {
				if (w.Screen == schematic.ID{}) {
					a.take(r, w, limit)
				}
			}
		}
		r.apart(p, a, func(int) string { return "not under a screen" }, limit, src.String())
	}
}

// apart are wires that lie by themselves.
type apart struct {
	long, unknown []*schematic.Wire
	longest       float64 // mm
	fixes         []Fix
}

// take enters a wire that lies by itself.
func (a *apart) take(r *run, w *schematic.Wire, limit float64) {
	given, _ := netlist.LengthOf(r.doc, w)
	length, ok := given.Get()
	switch {
	case !ok:
		a.unknown = append(a.unknown, w)
	case length > limit:
		a.long = append(a.long, w)
		a.longest = math.Max(a.longest, length)
	}
}

// untwisted lists the wires of two nets that share no twist with a wire of the
// other net, nor a screen where that will do.
func (r *run) untwisted(x, y int, limit float64, screen bool) apart {
	nets := [2]int{x, y}
	partner := map[schematic.ID][2]bool{}
	groups := func(w *schematic.Wire) []schematic.ID {
		if screen {
			return []schematic.ID{w.Twist, w.Screen}
		}
		return []schematic.ID{w.Twist}
	}
	for k, net := range nets {
		for _, w := range r.n.Nets[net].Wires {
			for _, g := range groups(w) {
				if (g != schematic.ID{}) {
					has := partner[g]
					has[k] = true
					partner[g] = has
				}
			}
		}
	}
	var out apart
	for _, net := range nets {
		for _, w := range r.n.Nets[net].Wires {
			if !slices.ContainsFunc(groups(w), func(g schematic.ID) bool { return partner[g] == [2]bool{true, true} }) {
				out.take(r, w, limit)
			}
		}
	}
	return out
}

// apart says which wires of a sensor lie by themselves; what says of a number of
// wires what they are not.
func (r *run) apart(p *schematic.Part, a apart, what func(int) string, limit float64, source string) {
	say := func(wires []*schematic.Wire) ([]schematic.Key, []string, string) {
		items, names := []schematic.Key{p.Key()}, []string{}
		for _, w := range wires {
			items, names = append(items, w.Key()), append(names, w.Name)
		}
		slices.SortFunc(names, schematic.CompareNames)
		return items, names, what(len(names))
	}
	if len(a.long) > 0 {
		items, names, how := say(a.long)
		r.add(Finding{Severity: Warning, Items: items, Unit: "mm", Source: source, Fixes: a.fixes,
			Value: schematic.Some(a.longest), Limit: schematic.Some(limit), Margin: schematic.Some(limit - a.longest),
			Text:    fmt.Sprintf("%s of %s %s %s, up to %s long.", list(names), p.Name, is(len(names)), how, mm(a.longest)),
			Formula: fmt.Sprintf("%s > %s", mm(a.longest), mm(limit))})
	}
	if len(a.unknown) > 0 {
		items, names, how := say(a.unknown)
		r.add(Finding{Severity: NotAssessed, Items: items, Missing: "length of " + list(names),
			Text: fmt.Sprintf("%s of %s %s %s, and may be short enough: the length is missing.", list(names), p.Name, is(len(names)), how)}, "length")
	}
}
