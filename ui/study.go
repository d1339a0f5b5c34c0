package ui

import (
	"fmt"
	"math"
	"reflect"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/ui/tool"
)

// study is what the window knows of the electricity of the drawing: currents
// per operating state, findings, the traced circuit. It is worked out beside
// the window after every edit; until then the last results stay in sight.
type study struct {
	job   latest
	after remedyJob
	edits netlist.Study // keeps the network from edit to edit; belongs to the job
	state schematic.ID  // operating state looked at; zero is everything at rest
	live  bool          // currents are shown on the drawing
	have  *electricity
	mark  tool.Hit // what is traced; not Ok when nothing is
	way   *litWay  // what is lit instead: a way found by another enquiry
	chain *chain   // the traced circuit, or that way
	drawn *draw.Live
}

// litWay is a way of the current found for one document.
type litWay struct {
	doc   *schematic.Doc
	chain *chain
}

// lit reports whether a circuit or a way is lit on the drawing.
func (s *study) lit() bool { return s.mark.Ok || s.way != nil }

// electricity is everything computed from one snapshot. It never changes.
type electricity struct {
	doc      *schematic.Doc
	net      *netlist.Netlist
	states   []*netlist.Solution // in the order of doc.States, or one at rest
	findings []finding
	report   *check.Report           // from which their remedies come
	idle     []*schematic.Acceptance // no finding needs them any more
}

// ask works the electricity of the present document out anew.
func (ed *Editor) ask() {
	doc := ed.doc()
	if ed.study.have != nil && ed.study.have.doc == doc {
		return
	}
	ed.study.after.drop()
	ask(&ed.study.job, func() *electricity { return compute(&ed.study.edits, doc) }, func(e *electricity) {
		ed.study.have = e
		ed.studied()
		ed.askRemedies(e)
	})
}

// compute works on what an earlier snapshot left in edits, as far as that holds.
func compute(edits *netlist.Study, doc *schematic.Doc) *electricity {
	e := &electricity{doc: doc}
	e.net, e.states = edits.Solve(doc)
	judge(e)
	return e
}

// studied follows new results, or another state or trace to look at.
func (ed *Editor) studied() {
	s := &ed.study
	s.chain = nil
	if s.way != nil && s.way.doc != ed.doc() {
		s.way = nil
	}
	switch {
	case s.have != nil && s.mark.Ok:
		s.chain = chainOf(s.have, s.solution(), s.mark)
	case s.way != nil:
		s.chain = s.way.chain
	}
	// The same results keep the same value, so that the drawing is not made anew.
	if p := s.picture(); !reflect.DeepEqual(p, s.drawn) {
		s.drawn = p
	}
	ed.drawer.studied()
	ed.details.refresh()
	ed.strip.refresh()
	ed.status.refresh()
	ed.sheetView.repaint()
	ed.menu.refresh()
}

// drop forgets what no longer exists.
func (s *study) drop(d *schematic.Doc) {
	if s.mark.Ok && d.Get(s.mark.Key) == nil {
		s.mark, s.chain = tool.Hit{}, nil
		s.drawn = s.picture()
	}
	if s.way != nil && s.way.doc != d {
		s.way, s.chain = nil, nil
		s.drawn = s.picture()
	}
	if (s.state != schematic.ID{}) && d.State(s.state) == nil {
		s.state = schematic.ID{}
	}
	if states := d.States(); (s.state == schematic.ID{}) && len(states) > 0 {
		s.state = states[0].ID
	}
}

// solution returns the state looked at, or nil when it is not computed yet.
func (s *study) solution() *netlist.Solution {
	if s.have == nil {
		return nil
	}
	for _, sol := range s.have.states {
		if sol.State == nil || sol.State.ID == s.state {
			return sol
		}
	}
	return nil
}

func (s *study) options() draw.Options { return draw.Options{Live: s.drawn} }

// picture puts together what the drawing shows of the results.
func (s *study) picture() *draw.Live {
	live := &draw.Live{}
	if sol := s.solution(); sol != nil {
		if s.live {
			live.Currents = plot.Currents(sol)
		}
		if s.live || s.chain != nil && s.way == nil {
			live.State = "at rest"
			if sol.State != nil && sol.State.Name != "" {
				live.State = sol.State.Name
			}
		}
		if s.chain != nil {
			live.Trace, live.Spots = s.chain.lit, s.chain.spots
		}
		live.Severity = severities(s.have.findings)
	}
	if len(live.Currents)+len(live.Trace)+len(live.Spots)+len(live.Severity) == 0 {
		return nil
	}
	return live
}

// What is shown as none: currents below leastShown, A, and volts below
// leastShownVolt.
const (
	leastShown     = netlist.LeastShownAmp
	leastShownVolt = 0.0005
)

// wireAmps says what a wire carries in the state looked at, "" when unknown.
func (ed *Editor) wireAmps(id schematic.ID) string {
	sol := ed.study.solution()
	if sol == nil {
		return ""
	}
	amp, ok := sol.WireAmp(id)
	if !ok || math.IsNaN(amp) {
		return ""
	}
	if math.Abs(amp) < leastShown {
		return "no current"
	}
	return unit.Format(unit.Amp, math.Abs(amp), unit.SI)
}

// setState looks at another operating state, also when the file is opened again.
func (ed *Editor) setState(id schematic.ID) {
	ed.study.state = id
	if ed.file.path != "" {
		ed.store.rememberState(ed.file.path, id.String())
		ed.keepSettings()
	}
	ed.studied()
	ed.drawer.follow()
}

// firstState returns the operating state a document just opened is looked at
// in: the last one, else the one that switches most on while the engine runs,
// for there the figures count. Without either it is the first.
func (ed *Editor) firstState() schematic.ID {
	var best *schematic.State
	last := ed.store.States[ed.file.path]
	for _, st := range ed.doc().States() {
		if last != "" && st.ID.String() == last {
			return st.ID
		}
		if st.Engine == schematic.EngineRunning && (best == nil || len(st.Set) > len(best.Set)) {
			best = st
		}
	}
	if best == nil || len(best.Set) == 0 {
		return schematic.ID{}
	}
	return best.ID
}

// setLive shows or hides the currents on the drawing.
func (ed *Editor) setLive(on bool) {
	ed.study.live = on
	ed.studied()
}

// trace lights up the circuit through a pin, wire or part.
func (ed *Editor) trace(h tool.Hit) {
	ed.study.mark, ed.study.way = h, nil
	ed.studied()
	if h.Ok {
		ed.drawer.open(ladderTab)
	}
}

// findingCounts says how many findings there are, and whether any is an error.
func (ed *Editor) findingCounts() (text string, trouble bool) {
	if ed.study.have == nil {
		return "checking…", false
	}
	var n [severityCount]int
	open := 0
	for _, f := range ed.study.have.findings {
		if f.Open() {
			n[f.Severity]++
			open++
		}
	}
	switch {
	case len(ed.study.have.findings) == 0:
		return "no findings", false
	case open == 0:
		return "no open findings", false
	}
	return fmt.Sprintf("%s, %s, %d not assessed", count(n[check.Error], "error"), count(n[check.Warning], "warning"), n[check.NotAssessed]), n[check.Error] > 0
}
