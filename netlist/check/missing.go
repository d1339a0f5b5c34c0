package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
)

var missing = Rule{
	ID:    "missing data",
	Title: "What nobody has said yet",
	Help: "Sizes, lengths, insulation, ratings and load currents without which a rule gives no verdict; parts of a kind nobody defines; " +
		"operating states that ask for what a part does not have; air temperature and routes that are assumed.",
	Source: "the drawing",
	run: func(r *run) {
		r.missingOfWires()
		r.missingOfParts()
		r.missingOfStates()
		r.assumptions()
	},
}

func (r *run) missingOfWires() {
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire {
			continue
		}
		what := slices.Clone(br.Missing)
		if math.IsNaN(netlist.InsulationC(br.Wire)) {
			word := "insulation or temperature class"
			if br.Wire.Insulation != "" {
				word = fmt.Sprintf("temperature class (%s is on no list)", br.Wire.Insulation)
			}
			what = append(what, word)
		}
		if len(what) == 0 {
			continue
		}
		r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{br.Wire.Key()}, Missing: list(what),
			Text: fmt.Sprintf("%s of %s %s missing.", upper(list(what)), br.Wire.Name, is(len(what)))})
	}
}

func (r *run) missingOfParts() {
	for _, p := range r.n.Unknown {
		r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{p.Key()}, Missing: "the kind " + p.Kind,
			Text: fmt.Sprintf("%s is of a kind %q that nobody defines; nothing that goes through it is assessed.", p.Name, p.Kind)})
	}
	behind := map[int][]int{} // load → branches it would draw through
	for i, loads := range r.shaded() {
		for _, l := range loads {
			behind[l] = append(behind[l], i)
		}
	}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleElement {
			if br.Role == netlist.RoleMate && len(br.Missing) > 0 {
				r.missingOf(br, nil)
			}
			continue
		}
		if len(br.Missing) > 0 && !(isFuse(br) && r.carries(i)) { // the rule about fuses names those in use
			r.missingOf(br, behind[i])
		}
		if br.Element.Type == schematic.ElemAlternator && !br.Value("limit_amp").Known() {
			r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Missing: "rated output",
				Text: fmt.Sprintf("The rated output of %s is missing: it counts as able to give any current.", br.Name())}, "limit")
		}
	}
}

func (r *run) carries(i int) bool {
	s, _ := r.worst(i, anyState)
	return s != nil
}

func (r *run) missingOf(br *netlist.Branch, behind []int) {
	f := Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Missing: list(br.Missing),
		Text: fmt.Sprintf("%s %s missing.", upper(br.MissingOf()), is(len(br.Missing)))}
	slices.Sort(behind)
	var names []string
	for _, i := range behind {
		b := &r.n.Branches[i]
		if b.Role == netlist.RoleWire || isFuse(b) {
			f.Items = append(f.Items, b.Key())
			names = append(names, b.Name())
		}
	}
	if len(names) > 0 {
		f.Text = fmt.Sprintf("%s %s missing, so the current in %s is more than the figures say.", upper(br.MissingOf()), is(len(br.Missing)), list(names))
	}
	r.add(f, br.Element.Name)
}

func (r *run) missingOfStates() {
	if len(r.doc.States()) == 0 && r.n.Reference >= 0 {
		r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{r.doc.Info().Key()}, Missing: "operating states",
			Text: "There is no operating state: currents are known only with everything at rest."}, "states")
	}
	for _, s := range r.sols {
		for k, note := range s.Notes {
			r.add(of(s, Finding{Severity: NotAssessed, Items: stateKey(s), Missing: "a position the part has", Text: upper(note) + "."}),
				s.State.ID.String(), fmt.Sprint(k))
		}
	}
}

// assumptions says what stands in for data nobody gave and holds for the whole
// drawing.
func (r *run) assumptions() {
	var warm, free []string
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire || !r.carries(i) {
			continue
		}
		if br.Conductor.Assumed {
			warm = append(warm, br.Wire.Name)
		}
		if _, a := r.worst(i, anyState); len(br.Wire.Route) == 0 && a >= first(r.limit(limitLoaded)) {
			free = append(free, br.Wire.Name)
		}
	}
	info := []schematic.Key{r.doc.Info().Key()}
	if len(warm) > 0 {
		r.add(Finding{Severity: NotAssessed, Items: info, Missing: "the air temperature",
			Text: fmt.Sprintf("The air temperature round %s is not given: %s is assumed, near an engine it is hotter.", list(warm), degC(netlist.DefaultAmbientC))}, "ambient")
	}
	if len(free) > 0 {
		r.add(Finding{Severity: NotAssessed, Items: info, Missing: "routes",
			Text: fmt.Sprintf("%s %s on no loom segment and %s as lying alone: in a bundle they bear less.", list(free), is(len(free)), verb(len(free), "count"))}, "routes")
	}
}

func first[A, B any](a A, _ B) A { return a }

// upper begins a sentence.
func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
