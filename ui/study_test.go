package ui

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// withFindings shows made-up findings of the present document.
func (r *rig) withFindings(fs ...finding) {
	e := *r.study.have
	e.findings = fs
	r.study.have = &e
	r.studied()
}

func (r *rig) finding(s check.Severity, name, text string) finding {
	return newFinding(r.doc(), check.Finding{ID: "test rule/" + name, Severity: s, Rule: "test rule", Text: text, Items: []schematic.Key{r.named(name)},
		Value: schematic.Some(17.5), Limit: schematic.Some(11), Margin: schematic.Some(-6.5), Unit: "A", Formula: "17.5 A > 11 A", Source: "a table"},
		"Test rule", map[schematic.Key]view.Place{})
}

func TestFindingsListAndJump(t *testing.T) {
	r := newRig(t, lampsFile)
	r.withFindings(
		r.finding(check.Error, "W4", "carries too much"),
		r.finding(check.Warning, "W14", "loses too much"),
		r.finding(check.NotAssessed, "W10", "length is missing"),
	)
	f := r.drawer.findings
	require.Len(t, f.shown, 3)
	r.win.Resize(fyne.NewSize(1600, 1000)) // room for the words
	assert.Equal(t, "Error 1", strings.TrimSpace(f.head.severity[check.Error].Text))
	assert.Equal(t, "1 error, 1 warning, 1 not assessed", r.status.found.full)
	assert.Equal(t, "Findings (3)", r.drawer.tabs.Items[findingsTab].Text)

	r.sheetView.zoom(6)
	f.list.Select(1)
	assert.Equal(t, []string{"W14"}, r.selected(), "a press selects")
	assert.Equal(t, "Lamps", r.doc().Sheet(r.sheet).Name, "on its own sheet")
	at := r.sheetView.cam.Visible()
	path := r.doc().Path(r.wire("W14"))
	x, y := path[0].MM()
	assert.True(t, x > at.Min.X && x < at.Max.X && y > at.Min.Y && y < at.Max.Y, "and in sight")

	var said []string
	walk(f.detail, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok {
			said = append(said, l.Text)
		}
	})
	assert.Subset(t, said, []string{"Test rule", "loses too much", "17.5 A", "11 A", "17.5 A > 11 A", "a table"}, "figures, limit, formula and source")

	f.step(1)
	assert.Equal(t, []string{"W10"}, r.selected())
	f.step(1)
	assert.Equal(t, []string{"W4"}, r.selected(), "round and round")
	f.step(-1)
	assert.Equal(t, []string{"W10"}, r.selected())

	f.head.severity[check.NotAssessed].SetChecked(false)
	assert.Len(t, f.shown, 2)
	f.head.search.SetText("w14")
	require.Len(t, f.shown, 1)
	f.head.search.SetText("too much")
	assert.Len(t, f.shown, 2)
	f.head.search.SetText("nothing of the kind")
	f.step(1)
	assert.Empty(t, f.shown)
}

// A finding is worst in one operating state: pressing it shows that state, and
// it stays in hand while the results come anew.
func TestAFindingShowsItsState(t *testing.T) {
	r := newRig(t, lampsFile)
	st := r.doc().States()[1]
	x := r.finding(check.Error, "W4", "carries too much")
	x.ID, x.State, x.StateName = "one", st.ID, st.Name
	r.withFindings(r.finding(check.Error, "W14", "of no state"), x)
	f := r.drawer.findings
	require.NotEqual(t, st.ID, r.study.state)
	f.list.Select(0)
	assert.NotEqual(t, st.ID, r.study.state, "what depends on no state changes none")
	f.list.Select(1)
	assert.Equal(t, st.ID, r.study.state)
	assert.Equal(t, []string{"W4"}, r.selected())
	assert.Contains(t, r.status.hint.full, st.Name, "and it is said")
	assert.Equal(t, 1, f.at)
	r.studied()
	assert.Equal(t, 1, f.at, "still in hand")
	f.step(1)
	assert.Equal(t, []string{"W14"}, r.selected())
}

// Remedies are seen without scrolling: above the figures, below the message.
func TestRemediesStandAboveTheFigures(t *testing.T) {
	r := newRig(t, lampsFile)
	x := r.finding(check.Error, "W4", "carries too much for a wire of this size in this insulation")
	x.Fixes = []check.Fix{{Label: "use 6 mm²", Effect: "carries it"}}
	r.withFindings(x)
	f := r.drawer.findings
	f.list.Select(0)
	f.detail.Resize(fyne.NewSize(400, 600))
	var order []string
	walk(f.detail, func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *widget.Label:
			order = append(order, o.Text)
		case *button:
			order = append(order, o.Text)
		}
	})
	at := func(s string) int { return slices.Index(order, s) }
	assert.Less(t, at(x.Text), at("Use 6 mm²"))
	assert.Less(t, at("Use 6 mm²"), at("17.5 A"))
	assert.Less(t, at("Use 6 mm²"), at("a table"))
}

func TestFindingsMarkTheDrawingByShapeAndWord(t *testing.T) {
	r := newRig(t, lampsFile)
	r.withFindings(r.finding(check.Warning, "W4", "a"), r.finding(check.Error, "W4", "b"), r.finding(check.NotAssessed, "W10", "c"))
	marks := r.study.options().Live.Severity
	assert.Equal(t, draw.Error, marks[r.named("W4")].Level, "the gravest counts")
	assert.NotContains(t, marks, r.named("W10"), "missing data is listed, not marked")
	seen := map[string]bool{}
	for s := range severityCount {
		icon := shadeOf(check.Severity(s)).icon
		assert.False(t, seen[icon], "every severity has a shape of its own")
		seen[icon] = true
	}
}

func TestAFixIsOneStep(t *testing.T) {
	r := newRig(t, lampsFile)
	thick := *r.wire("W4")
	thick.Size, _ = parseSize("6 mm²")
	f := r.finding(check.Error, "W4", "too thin")
	f.Fixes = []check.Fix{{Label: "use 6 mm²", Effect: "carries it", Items: []schematic.Item{&thick}}}
	r.withFindings(f)
	r.drawer.findings.list.Select(0)
	r.drawer.findings.mend(f.Fixes[0])
	assert.Equal(t, "6 mm²", r.wire("W4").Size.String())
	assert.Equal(t, "use 6 mm²", r.sess.UndoLabel())
	r.do("edit.undo")

	r.study.have.doc = nil // results of another snapshot
	r.drawer.findings.mend(f.Fixes[0])
	assert.Equal(t, "1 mm²", r.wire("W4").Size.String(), "a remedy for another document is not applied")
}

// The wire of 1 mm² behind a 30 A fuse carries the fan's 17.5 A.
func TestRealFindingsOfTheTestHarness(t *testing.T) {
	r := newRig(t, lampsFile)
	text := ""
	for _, f := range r.study.have.findings {
		if f.Severity == check.Error {
			text += f.names + " "
		}
	}
	assert.Contains(t, text, "W4")
	missing := false
	for _, f := range r.study.have.findings {
		missing = missing || f.Severity == check.NotAssessed && strings.Contains(f.names, "W10")
	}
	assert.True(t, missing, "W10 has no length: that is said, not passed over")
}

func TestADeadCircuitSaysSo(t *testing.T) {
	r := newRig(t, lampsFile)
	r.trace(tool.Hit{Key: r.named("W14"), Ok: true}) // switch off in the first state
	require.NotNil(t, r.study.chain)
	assert.NotEmpty(t, r.study.chain.notes)
	open := false
	for _, s := range r.study.chain.steps {
		open = open || s.open
	}
	assert.True(t, open, "the open contact is a step of its own")
	r.do("check.untrace")
	assert.Nil(t, r.study.chain)
	assert.Empty(t, r.lit().Trace)
}

// lit is what computation adds to the drawing just now.
func (r *rig) lit() draw.Live {
	if l := r.study.options().Live; l != nil {
		return *l
	}
	return draw.Live{}
}

func TestCurrentsOnTheDrawing(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.key("L")
	cur := r.study.options().Live.Currents
	assert.Equal(t, draw.AToB, cur[r.named("W5").ID].Flow)
	assert.Equal(t, draw.BToA, cur[r.named("W7").ID].Flow, "from ground back to the battery")
	assert.Contains(t, cur[r.named("W5").ID].Text, "A")
	r.key("L")
	assert.Empty(t, r.lit().Currents)
	assert.Equal(t, r.wireAmps(r.named("W5").ID), cur[r.named("W5").ID].Text)
}

func TestTheTraceFollowsEdits(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.trace(tool.Hit{Key: r.named("W5"), Ok: true})
	before := r.study.chain.steps[0].amp
	r.choose(r.named("M1"))
	r.write("Running current", "9 A")
	require.NotNil(t, r.study.chain)
	assert.Less(t, r.study.chain.steps[0].amp, before)
	r.choose(r.named("W5"))
	r.key(fyne.KeyDelete)
	assert.False(t, r.study.mark.Ok, "what is traced is gone")
	assert.Nil(t, r.study.chain)
}

func TestLateResultsAreDropped(t *testing.T) {
	r := newRig(t, lampsFile)
	var b byHand
	r.study.job.crew, r.study.after.job.crew = b.crew(), b.crew()
	old := r.study.have
	r.choose(r.named("G1"))
	r.key(fyne.KeyRight)
	r.key(fyne.KeyRight)
	require.Len(t, b.side, 1, "one job at a time")
	take(&b.side)
	take(&b.window)
	assert.Same(t, old, r.study.have, "results of a document that is past are dropped")
	take(&b.side)
	take(&b.window)
	assert.Same(t, r.doc(), r.study.have.doc)
	require.Len(t, b.side, 1, "what is left are the remedies")

	remedies := func() (n int) {
		for i := range r.study.have.findings {
			n += len(r.study.have.findings[i].Fixes)
		}
		return n
	}
	early, listed := remedies(), len(r.drawer.findings.shown)
	take(&b.side)
	take(&b.window)
	assert.Greater(t, remedies(), early, "findings come before their remedies")
	assert.Len(t, r.drawer.findings.shown, listed)

	r.key(fyne.KeyRight)
	take(&b.side)
	take(&b.window)
	require.Len(t, b.side, 1)
	r.key(fyne.KeyRight)
	early = remedies()
	take(&b.side)
	take(&b.window)
	assert.Equal(t, early, remedies(), "those of a document that is past are dropped")
}

func TestASlowSheetIsDrawnBesideTheWindow(t *testing.T) {
	r := newRig(t, lampsFile)
	var b byHand
	r.pictures.job.crew = b.crew()
	r.pictures.cost[r.sheet] = 10 * slowPicture
	shown := r.basePicture().list
	r.choose(r.named("G1"))
	r.key(fyne.KeyRight)
	assert.Same(t, shown, r.basePicture().list, "the last picture stays in sight")
	assert.Same(t, r.doc(), r.basePicture().want.doc, "with the change drawn over it")
	r.basePicture()
	require.Len(t, b.side, 1, "asked for once")
	asked := r.sheetView.asked
	for len(b.side)+len(b.window) > 0 {
		if len(b.side) > 0 {
			take(&b.side)
		} else {
			take(&b.window)
		}
	}
	assert.Greater(t, r.sheetView.asked, asked)
	assert.NotSame(t, shown, r.basePicture().list)
	assert.Same(t, r.doc(), r.basePicture().want.doc)
}

// A file opens in the operating state it was last looked at in; the first time
// in the one that switches most on while the engine runs.
func TestTheStateAFileOpensIn(t *testing.T) {
	settings := t.TempDir()
	path := filepath.Join(t.TempDir(), "pickup.loom.json")
	b, err := os.ReadFile("../testdata/pickup.loom.json")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, b, 0o644))
	r := rigIn(t, path, settings)
	assert.Equal(t, "Running hot", r.doc().State(r.study.state).Name)
	parked := r.doc().States()[0]
	r.setState(parked.ID)
	r = rigIn(t, path, settings)
	assert.Equal(t, parked.ID, r.study.state)
	require.Len(t, r.store.States, 1)
	for i := range maxRecent {
		r.store.remember(strconv.Itoa(i))
	}
	assert.Empty(t, r.store.States, "what is no recent file is forgotten")
}

func TestStatesPanel(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("check.states")
	p := r.drawer.states
	find := func(name string) switchable {
		for _, row := range p.rows {
			if row.name == name {
				return row
			}
		}
		require.Fail(t, "no row", name)
		return switchable{}
	}
	assert.Equal(t, "off", find("S1").now)
	row := newStateRow(p)
	row.show(find("S1"))
	row.pos.SetSelected("on")
	assert.Equal(t, "on", find("S1").now)
	assert.Equal(t, "set S1 to on", r.sess.UndoLabel())
	assert.InDelta(t, 4.5, ampsOf(r, "W14"), 0.5, "the lamp burns in this state now")

	row = newStateRow(p)
	row.show(find("E1"))
	row.duty.SetText("25 %")
	row.duty.flush()
	assert.Equal(t, schematic.Some(0.25), find("E1").duty)
	row.duty.SetText("lots")
	row.duty.flush()
	assert.True(t, p.note.Visible(), "a mistake is said in words")

	row = newStateRow(p)
	row.show(find("S1"))
	row.pos.SetSelected("off")
	assert.False(t, find("S1").given, "the default is not written down")

	p.only.SetChecked(true)
	assert.Len(t, p.rows, 1)
	p.only.SetChecked(false)

	r.do("check.addstate")
	r.win.Canvas().Focused().(*entry).SetText("Cranking")
	r.tap("Use it")
	require.Len(t, r.doc().States(), 3)
	assert.Equal(t, "Cranking", r.doc().State(r.study.state).Name, "the new state is looked at")
	p.engine.SetSelected("cranking")
	assert.Equal(t, schematic.EngineCranking, r.doc().State(r.study.state).Engine)
	p.name.SetText("Start")
	p.name.flush()
	assert.Equal(t, "Start", r.doc().State(r.study.state).Name)
	p.remove()
	assert.Len(t, r.doc().States(), 2)
	assert.NotNil(t, r.doc().State(r.study.state), "another one is looked at")
}

func ampsOf(r *rig, wire string) float64 {
	a, _ := r.study.solution().WireAmp(r.named(wire).ID)
	return math.Abs(a)
}

func TestThePreviewNeverTouchesTheDocument(t *testing.T) {
	r := newRig(t, lampsFile)
	doc := r.doc()
	r.showPreview(func(tx *edit.Tx) error {
		return edit.Move(tx, r.sheet, []schematic.Key{r.named("G1")}, r.part("G1").Views[0].At)
	})
	require.NotNil(t, r.preview)
	assert.NotSame(t, doc, r.shownDoc())
	assert.Same(t, doc, r.doc())
	r.showPreview(nil)
	assert.Same(t, doc, r.shownDoc())
}

func TestFindingRowsKeepTheirColumnsApart(t *testing.T) {
	newRig(t, "")
	for _, width := range []float32{900, 520, 300} {
		r := newFindingRow(func() unit.Show { return unit.Show{} })
		r.Resize(fyne.NewSize(width, 28))
		x := float32(0)
		for _, o := range []fyne.CanvasObject{r.icon, r.word, r.names, r.text, r.value} {
			if !o.Visible() {
				continue
			}
			assert.GreaterOrEqual(t, o.Position().X, x, width)
			x = o.Position().X + o.Size().Width
		}
		assert.LessOrEqual(t, x, width+0.5)
		assert.Greater(t, r.text.Size().Width, float32(60), width)
	}
}
