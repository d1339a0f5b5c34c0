package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// viewed are findings as [findingView] sees them: rule, part, severity, sheet
// and place, how far beyond the limit.
func viewed() []finding {
	engine, cabin := &schematic.Sheet{ID: schematic.ID{1}, Name: "Engine", Order: 1}, &schematic.Sheet{ID: schematic.ID{2}, Name: "Cabin"}
	one := func(rule, part string, s check.Severity, sheet *schematic.Sheet, y int, margin float64, state string) finding {
		return finding{Finding: check.Finding{ID: rule + part, Rule: rule, Severity: s, StateName: state, Limit: schematic.Some(10), Margin: schematic.Some(margin),
			Items: []schematic.Key{{Type: schematic.TypePart, ID: schematic.ID{part[0]}}}},
			part: part, sheet: sheet, at: geom.Pt(0, y), words: rule + " " + part}
	}
	fs := []finding{
		one("drop", "a", check.Error, engine, 500, -1, "Running"),
		one("thin", "b", check.Error, cabin, 300, -5, "Parked"),
		one("drop", "c", check.Warning, cabin, 100, -9, "Running"),
		one("missing", "d", check.NotAssessed, nil, 0, 0, ""),
		one("thin", "e", check.Warning, engine, 400, -2, "Running"),
	}
	fs[4].Accepted = &schematic.Acceptance{}
	return fs
}

func TestTheListOfFindingsIsFilteredSortedAndGrouped(t *testing.T) {
	for _, c := range []struct {
		name string
		view findingView
		want string
	}{
		{"as the checks give it, without the accepted", findingView{}, "a b c d"},
		{"accepted ones come last", findingView{accepted: true}, "a b c d e"},
		{"no errors", findingView{hide: [severityCount]bool{check.Error: true}}, "c d"},
		{"an accepted warning is no open one", findingView{hide: [severityCount]bool{check.Warning: true}, accepted: true}, "a b d e"},
		{"by text", findingView{text: "drop"}, "a c"},
		{"by rule", findingView{rule: "thin", accepted: true}, "b e"},
		{"by state", findingView{state: "Running"}, "a c"},
		{"about a part", findingView{about: map[schematic.Key]bool{{Type: schematic.TypePart, ID: schematic.ID{'c'}}: true}}, "c"},
		{"about nothing", findingView{about: map[schematic.Key]bool{}}, ""},
		{"furthest beyond the limit", findingView{order: furthestFirst}, "c b a d"},
		{"sheet by sheet, downwards", findingView{order: byPlace}, "c b a d"},
		{"by rule in groups", findingView{group: groupByRule}, "[Drop 2] a c [Thin 1] b [Missing 1] d"},
		{"by sheet, in the order of the tabs", findingView{group: groupBySheet}, "[Cabin 2] b c [Engine 1] a [The whole drawing 1] d"},
		{"by state", findingView{group: groupByState}, "[Running 2] a c [Parked 1] b [In whatever state 1] d"},
		{"by part", findingView{group: groupByPart}, "[a 1] a [b 1] b [c 1] c [d 1] d"},
		{"folded", findingView{group: groupByRule, folded: map[string]bool{"Drop": true}}, "[Drop 2] [Thin 1] b [Missing 1] d"},
	} {
		lines, shown := c.view.lines(viewed())
		text, n := "", 0
		for _, l := range lines {
			if text != "" {
				text += " "
			}
			if l.x == nil {
				text += fmt.Sprintf("[%s %d]", l.head, l.n)
			} else {
				text, n = text+l.x.part, n+1
			}
		}
		assert.Equal(t, c.want, text, c.name)
		assert.Len(t, shown, n, c.name)
	}
	count := countFindings(viewed())
	assert.Equal(t, [severityCount]int{2, 1, 1, 0}, count.open)
	assert.Equal(t, 1, count.accepted)
	assert.Equal(t, []named{{"drop", 2}, {"missing", 1}, {"thin", 2}}, count.rules)
}

func TestAFindingIsAcceptedTakenBackAndUndone(t *testing.T) {
	r := newRig(t, lampsFile)
	f := r.drawer.findings
	r.do("check.next")
	x := f.inHand()
	require.NotNil(t, x)
	id, errors := x.ID, f.head.count.open[check.Error]
	r.do("check.accept")
	r.tap("Accept")
	require.True(t, r.boxOpen(), "not without a reason")
	r.win.Canvas().Focused().(*entry).SetText("fused at the donor side")
	r.tap("Accept")
	require.False(t, r.boxOpen())
	require.Equal(t, 1, r.doc().Len(schematic.TypeAcceptance))
	for a := range r.doc().Acceptances() {
		assert.Equal(t, "2026-03-01", a.Date)
	}
	assert.Equal(t, errors-1, f.head.count.open[check.Error], "it no longer counts")
	for _, y := range f.shown {
		assert.NotEqual(t, id, y.ID, "and is not listed")
	}
	r.do("check.listaccepted")
	last := f.shown[len(f.shown)-1]
	require.Equal(t, id, last.ID)
	f.list.Select(len(f.lines) - 1)
	assert.Contains(t, f.inHand().acceptedWords(), "fused at the donor side (2026-03-01)")
	assert.False(t, r.actions.Find("check.accept").IsEnabled())
	r.do("check.takeback")
	assert.Zero(t, r.doc().Len(schematic.TypeAcceptance))
	assert.Equal(t, id, f.inHand().ID, "it is open and still in hand")
	r.do("edit.undo")
	assert.Equal(t, 1, r.doc().Len(schematic.TypeAcceptance))
	r.do("edit.undo")
	assert.Zero(t, r.doc().Len(schematic.TypeAcceptance))
	assert.Equal(t, errors, f.head.count.open[check.Error])
}

func TestAcceptancesNothingNeedsAreRemoved(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("check.next")
	r.do("check.accept")
	r.win.Canvas().Focused().(*entry).SetText("looked at")
	r.tap("Accept")
	assert.False(t, r.actions.Find("check.clearaccepted").IsEnabled())
	for a := range r.doc().Acceptances() {
		r.choose(a.Items[0].Key())
	}
	r.key(fyne.KeyDelete)
	require.Equal(t, 1, r.doc().Len(schematic.TypeAcceptance), "it waits for an undo")
	r.do("check.clearaccepted")
	assert.Zero(t, r.doc().Len(schematic.TypeAcceptance))
}

func TestFiltersOfFindingsByCommand(t *testing.T) {
	r := newRig(t, lampsFile)
	f := r.drawer.findings
	all := len(f.shown)
	require.Greater(t, all, 4)
	r.do("check.next")
	rule := f.inHand().Rule
	r.do("check.listrule")
	for _, x := range f.shown {
		assert.Equal(t, rule, x.Rule)
	}
	assert.Contains(t, f.head.more.Text, fmt.Sprintf("of %d", all), "it is said that not all are listed")
	r.do("check.listrule")
	require.Len(t, f.shown, all)

	main := f.inHand().Items[0]
	r.do("check.listselection")
	some := len(f.shown)
	require.Less(t, some, all)
	f.step(1)
	assert.Len(t, f.shown, some, "going to a finding does not narrow the list")
	r.choose()
	assert.Empty(t, f.shown)
	r.choose(main)
	assert.Len(t, f.shown, some)
	r.do("check.listall")
	assert.Len(t, f.shown, all)

	r.do("check.list0")
	assert.False(t, f.head.severity[check.Error].Checked)
	r.do("check.list0")
	choose := func(id, words string) { // as the keyboard does
		r.do(id)
		in := r.boxes[0].first
		test.Type(in, words)
		in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	choose("check.choosegroup", "rule")
	assert.Equal(t, groupNames()[groupByRule], f.head.group.Selected)
	require.Nil(t, f.lines[0].x)
	f.list.Select(0)
	assert.True(t, f.lines[0].folded, "a press on the head folds")
	r.do("check.fold")
	assert.True(t, f.lines[1].folded)
	r.do("check.fold")
	assert.False(t, f.lines[0].folded)
	choose("check.chooseorder", "beyond")
	assert.Equal(t, orderNames()[furthestFirst], f.head.order.Selected)
	f.step(1)
	assert.NotNil(t, f.inHand(), "steps pass over the heads")
	f.head.rule.SetSelectedIndex(1)
	assert.Equal(t, f.head.rules[1], f.view.rule)
}

func TestAFindingIsReadInFullAndCopied(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("check.next")
	x := r.drawer.findings.inHand()
	r.do("check.full")
	r.tap("Copy as text")
	for _, part := range []string{x.Text, x.Formula, x.Source} {
		assert.Contains(t, r.app.Clipboard().Content(), part)
	}
	r.tap("Close")
	require.False(t, r.boxOpen())
}

func TestTheFirstRemedyByKey(t *testing.T) {
	r := newRig(t, lampsFile)
	f := r.drawer.findings
	for range f.shown {
		f.step(1)
		if len(f.inHand().Fixes) > 0 {
			break
		}
	}
	x := f.inHand()
	require.NotEmpty(t, x.Fixes)
	require.NotEmpty(t, f.after.says)
	assert.Contains(t, f.after.says[0], "Afterwards this finding is gone", "the whole drawing is checked with the remedy in it")
	r.do("check.mend")
	assert.Equal(t, x.Fixes[0].Label, r.sess.UndoLabel())
	assert.Contains(t, r.status.hint.full, x.Fixes[0].Effect, "what it brings is said")
	for _, y := range f.shown {
		assert.NotEqual(t, x.ID, y.ID)
	}
}

// The list makes only the rows in sight, however many findings there are.
func TestManyFindingsAreListedAtOnce(t *testing.T) {
	r := newRig(t, lampsFile)
	var many []finding
	for i := range 2000 {
		x := r.finding(check.Severity(i%severityCount), "W4", fmt.Sprint("finding ", i))
		x.ID = fmt.Sprint(i)
		many = append(many, x)
	}
	r.withFindings(many...)
	f := r.drawer.findings
	require.Len(t, f.shown, 2000)
	rows := 0
	walk(f.list, func(o fyne.CanvasObject) {
		if _, ok := o.(*findingRow); ok {
			rows++
		}
	})
	assert.Less(t, rows, 60)
	f.head.search.SetText("finding 19")
	assert.Len(t, f.shown, 111)
}

func BenchmarkListOfManyFindings(b *testing.B) {
	all := viewed()
	for len(all) < 2000 {
		all = append(all, viewed()...)
	}
	v := findingView{text: "drop", group: groupByRule, order: furthestFirst}
	for b.Loop() {
		v.lines(all)
		countFindings(all)
	}
}

func TestAFindingHasAMenuOfItsOwn(t *testing.T) {
	r := newRig(t, lampsFile)
	f := r.drawer.findings
	require.NotEmpty(t, f.shown)
	f.popUp(0, fyne.NewPos(300, 600))
	require.True(t, r.boxOpen())
	assert.Equal(t, 0, f.at, "it is the finding in hand")
	var items []string
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if l, ok := o.(*canvas.Text); ok {
			items = append(items, l.Text)
		}
	})
	assert.Contains(t, strings.Join(items, "\n"), "Read it all…")
	assert.Contains(t, strings.Join(items, "\n"), "Show the selection")
}
