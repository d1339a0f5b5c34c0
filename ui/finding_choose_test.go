package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
	"loomwright/schematic"
)

// chosenIn names the findings chosen, in the order of the list.
func chosenIn(f *findingList) []string {
	var out []string
	for _, x := range f.hands() {
		out = append(out, x.part)
	}
	return out
}

func TestFindingsAreChosenLikeRows(t *testing.T) {
	r := newRig(t, lampsFile)
	var fs []finding
	for _, name := range []string{"W4", "W14", "W10", "W5", "W6"} {
		fs = append(fs, r.finding(check.Warning, name, "about "+name))
	}
	r.withFindings(fs...)
	f := r.drawer.findings
	const ctrl, shift = fyne.KeyModifierShortcutDefault, fyne.KeyModifierShift
	for _, s := range []struct {
		why  string
		do   func()
		want []string
		hand string
	}{
		{"a press takes one", func() { f.pressed(1, 0) }, []string{"W14"}, "W14"},
		{"Ctrl adds", func() { f.pressed(3, ctrl) }, []string{"W14", "W5"}, "W5"},
		{"and takes away", func() { f.pressed(1, ctrl) }, []string{"W5"}, "W5"},
		{"the last one stays", func() { f.pressed(3, ctrl) }, []string{"W5"}, "W5"},
		{"Shift takes all between", func() { f.pressed(1, shift) }, []string{"W14", "W10", "W5"}, "W14"},
		{"from the same place", func() { f.pressed(4, shift) }, []string{"W5", "W6"}, "W6"},
		{"by key too", func() { f.move(-1, shift) }, []string{"W5"}, "W5"},
		{"and up", func() { f.move(-1, shift) }, []string{"W10", "W5"}, "W10"},
		{"not beyond the ends", func() { f.pressed(0, shift); f.move(-1, shift) }, []string{"W4", "W14", "W10", "W5"}, "W4"},
		{"an arrow alone goes on to one", func() { f.move(1, 0) }, []string{"W14"}, "W14"},
		{"all at once", func() { r.do("check.chooseall") }, []string{"W4", "W14", "W10", "W5", "W6"}, "W14"},
		{"the key for all is the list's while it has the keyboard", func() {
			f.pressed(2, 0)
			r.win.Canvas().Focus(f.list)
			r.do("edit.all")
		}, []string{"W4", "W14", "W10", "W5", "W6"}, "W10"},
		{"taking the one in hand away hands on", func() { f.pressed(2, ctrl) }, []string{"W4", "W14", "W5", "W6"}, "W4"},
	} {
		s.do()
		assert.Equal(t, s.want, chosenIn(f), s.why)
		assert.Equal(t, s.hand, f.inHand().part, s.why)
	}
	f.head.search.SetText("about w5")
	assert.Equal(t, []string{"W5"}, chosenIn(f), "what is out of sight is not chosen")
	f.head.search.SetText("")
	assert.Equal(t, []string{"W5"}, chosenIn(f), "and does not come back unasked")
}

func TestSeveralFindingsAreAcceptedInOneStep(t *testing.T) {
	r := newRig(t, lampsFile)
	f := r.drawer.findings
	f.pressed(0, 0)
	f.pressed(2, fyne.KeyModifierShift)
	hands := f.hands()
	require.Len(t, hands, 3)
	var ids []string
	for _, x := range hands {
		ids = append(ids, x.ID)
	}
	before := len(f.shown)
	assert.Equal(t, "Accept 3 findings…", r.actions.Find("check.accept").TitleNow())
	r.do("check.accept")
	r.win.Canvas().Focused().(*entry).SetText("looked at together")
	r.tap("Accept")
	require.False(t, r.boxOpen())
	assert.Equal(t, "accept 3 findings", r.sess.UndoLabel())
	assert.Equal(t, 3, r.doc().Len(schematic.TypeAcceptance))
	assert.Len(t, f.shown, before-3)
	for _, x := range f.shown {
		assert.NotContains(t, ids, x.ID)
	}
	r.do("edit.undo")
	assert.Zero(t, r.doc().Len(schematic.TypeAcceptance), "one step back")
	assert.Len(t, f.shown, before)
	r.do("edit.redo")

	r.do("check.listaccepted")
	f.pressed(before-1, 0)
	f.pressed(before-2, fyne.KeyModifierShortcutDefault)
	r.do("check.takeback")
	assert.Equal(t, 1, r.doc().Len(schematic.TypeAcceptance), "two of the three are open again")
	assert.Equal(t, "take back 2 acceptances", r.sess.UndoLabel())
	assert.Equal(t, "open again: 2 findings", r.status.hint.full)
}

// With one finding in hand all of its rule can be accepted with the same
// reason, in the whole drawing or about the same item.
func TestAllOfARuleAreAccepted(t *testing.T) {
	r := newRig(t, lampsFile)
	one := r.finding(check.Warning, "W4", "first")
	two, three, other := r.finding(check.Warning, "W4", "second"), r.finding(check.Warning, "W14", "third"), r.finding(check.Error, "W10", "of another rule")
	two.ID, two.Detail, other.Rule = "test rule/W4/2", "2", "another rule"
	r.withFindings(one, two, three, other)
	f := r.drawer.findings
	f.pressed(0, 0)
	var words []string
	for _, s := range f.scopes() {
		words = append(words, s.words)
	}
	assert.Equal(t, []string{"This finding", "All 2 “Test rule” about W4", "All 3 “Test rule” of the drawing"}, words)
	assert.Equal(t, []string{"first", "second"}, []string{f.scopes()[1].what[0].Text, f.scopes()[1].what[1].Text})
	f.accept(f.scopes()[2].what, "common practice here")
	assert.Equal(t, 3, r.doc().Len(schematic.TypeAcceptance))
	for a := range r.doc().Acceptances() {
		assert.Equal(t, "test rule", a.Rule)
		assert.Equal(t, "common practice here", a.Reason)
	}
	r.do("edit.undo")
	assert.Zero(t, r.doc().Len(schematic.TypeAcceptance))
}
