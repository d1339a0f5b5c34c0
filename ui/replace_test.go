package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/ui/view"
)

// entries returns the text fields of the box in front.
func (r *rig) entries() (all []*entry) {
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if e, ok := o.(*entry); ok {
			all = append(all, e)
		}
	})
	return all
}

func TestFindAndReplace(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("edit.replace")
	require.True(t, r.boxOpen())
	in := r.entries()
	in[0].SetText("fan")
	in[1].SetText("blower")
	var list *rows
	var sum *widget.Label
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *rows:
			list = o
		case *widget.Label:
			if len(o.Text) > 5 && o.Text[:1] >= "1" && o.Text[:1] <= "9" {
				sum = o
			}
		}
	})
	require.NotNil(t, list)
	require.NotNil(t, sum)
	n := list.Length()
	require.Greater(t, n, 2)
	list.Select(0)
	assert.Contains(t, sum.Text, count(n, "text")+" found")
	r.tap("Replace what is ticked")
	assert.Equal(t, 1, list.Length(), "the one not ticked is left, and still found")
	doc := r.doc()
	r.tap("Replace what is ticked")
	assert.Same(t, doc, r.doc(), "pressed again it leaves that one alone: it is still not ticked")
	r.tap("Close")
	said := 0
	for p := range r.doc().Parts() {
		if p.Label == "radiator blower" {
			said++
		}
	}
	assert.Positive(t, said)
	assert.Contains(t, r.sess.UndoLabel(), "replace")
	r.do("edit.undo")
	assert.False(t, r.sess.Modified(), "all in one step")
}

func TestReplacingSaysWhatStandsInItsWay(t *testing.T) {
	r := newRig(t, lampsFile)
	doc := r.doc()
	r.do("edit.replace")
	r.tap("Replace what is ticked")
	assert.True(t, r.boxOpen(), "nothing to look for")
	in := r.entries()
	in[0].SetText("F1")
	in[1].SetText("F2")
	r.tap("Replace what is ticked")
	require.Len(t, r.boxes, 1, "the designation is taken")
	assert.Same(t, doc, r.doc())
	in[0].SetText("RD")
	in[1].SetText("QQ")
	r.tap("Replace what is ticked")
	assert.Same(t, doc, r.doc(), "no such colour")
	r.tap("Close")
}

func TestRenumberByForm(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("F2"))
	r.do("edit.renumber")
	in := r.entries()
	require.Len(t, in, 2)
	assert.Equal(t, "F", in[0].Text, "the letters of what is selected")
	in[0].SetText("FU")
	in[1].SetText("x")
	r.tap("Renumber")
	require.True(t, r.boxOpen(), "x is no number")
	in[1].SetText("11")
	r.tap("Renumber")
	require.False(t, r.boxOpen())
	_, ok := r.doc().Named("FU11")
	assert.True(t, ok)
	for p := range r.doc().Parts() {
		if view.DrawnOn(r.doc(), p.Key(), r.sheet) {
			assert.NotEqual(t, "F2", p.Name)
		}
	}
	assert.Contains(t, r.status.hint.full, "renumbered ")
	r.do("edit.renumber")
	doc := r.doc()
	r.entries()[1].SetText("11")
	r.tap("Renumber")
	assert.Same(t, doc, r.doc())
	assert.Contains(t, r.status.hint.full, "nothing was renumbered")
	r.do("edit.undo")
	assert.False(t, r.sess.Modified())

	r.choose()
	r.do("edit.renumber")
	assert.Equal(t, "W", r.entries()[0].Text, "with nothing selected the letters most bear")
}

func TestAroundChange(t *testing.T) {
	for _, c := range []struct{ was, is, wantWas, wantIs string }{
		{"fan", "pump", "“fan”", "“pump”"},
		{"two\nlines of fan", "two\nlines of pump", "“…wo lines of fan”", "“…wo lines of pump”"},
		{"fan left", "fan", "“fan left”", "“fan”"},
		{"a long text that goes on and on until nobody reads any more of it", "x", "“a long text that goes on and on until no…”", "“x”"},
	} {
		was, is := aroundChange(c.was, c.is)
		assert.Equal(t, c.wantWas, was)
		assert.Equal(t, c.wantIs, is)
	}
}

func TestFindingByValueAndColour(t *testing.T) {
	r := newRig(t, lampsFile)
	for text, want := range map[string]string{"vt/gn": "W9", "fuse 30 a": "F2"} {
		lines := narrow(r.namedThings(), text)
		require.NotEmpty(t, lines, text)
		lines[0].run()
		assert.Equal(t, []string{want}, r.selected(), text)
	}
}
