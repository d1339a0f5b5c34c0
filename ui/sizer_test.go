package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// said is the text of the answer.
func (s *sizer) said() string {
	var b strings.Builder
	walk(s.answer, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok {
			b.WriteString(l.Text + "\n")
		}
	})
	return b.String()
}

func (s *sizer) ask(pairs ...string) {
	for i := 0; i < len(pairs); i += 2 {
		s.input[pairs[i]].SetText(pairs[i+1])
	}
}

// The worked example of the calculation, typed in: see TestAdviseWorkedExample.
func TestTheSizeOfAWireIsAnsweredWhileItIsAsked(t *testing.T) {
	r := newRig(t, "")
	s := r.openSizer()
	assert.Contains(t, s.said(), "what current the wire shall carry")
	assert.False(t, s.note.Visible(), "nothing is wrong yet")
	s.ask("amp", "18", "length", "4.2 m", "ambient", "80", "bundle", "12", "drop", "0.5 V")
	assert.False(t, s.note.Visible(), s.note.Text)
	for _, want := range []string{"10 mm²", "AWG 6", "25 A fuse", "Bears 26 A, the load warms it to 91.5 °C, loses 0.176 V of the 0.5 V allowed; the fuse decides.", "18 A / 0.75 = 24 A", "ISO 10133"} {
		assert.Contains(t, s.said(), want)
	}
	assert.NotContains(t, strings.ToLower(s.said()), "safe")

	s.back.SetSelected(backByWire)
	assert.Contains(t, s.said(), "0.5 V over 8.4 m of conductor", "there and back")
	s.ask("drop", "3 %")
	assert.Contains(t, s.said(), "0.36 V over")
	s.ask("drop", "")
	s.load.SetSelected("A lamp above 15 W")
	assert.Contains(t, s.said(), "0.6 V over", "automotive handbook (from memory), lighting circuit with ground")
	s.ask("length", "")
	assert.Contains(t, s.said(), "Not assessed: the voltage drop")
	s.family.SetSelected("TXL, 125 °C")
	assert.Equal(t, "125 °C", s.input["insulation"].Text)
	for field, text := range map[string]string{"amp": "lots", "bundle": "1.5", "duty": "0", "ambient": ""} {
		was := s.input[field].Text
		s.ask(field, text)
		assert.True(t, s.note.Visible(), field)
		assert.Contains(t, s.note.Text, s.title(field))
		s.ask(field, was)
		assert.False(t, s.note.Visible(), s.note.Text)
	}
	r.tap("Close")
}

func TestTheAnswerIsUsedForTheSelectedWires(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.choose(r.named("W4"), r.named("W14"))
	s := r.openSizer()
	assert.Equal(t, "17.4 A", s.input["amp"].Text, "the fan's, of the one that carries most: 17.5 A less what its wires lose")
	var size string
	walk(s.answer, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok && size == "" {
			size = l.Text
		}
	})
	r.tap("Use " + size + " for 2 wires")
	require.False(t, r.boxOpen())
	for _, name := range []string{"W4", "W14"} {
		assert.Equal(t, size, r.wire(name).Size.String())
	}
	assert.Contains(t, r.sess.UndoLabel(), "for 2 wires")
	r.do("edit.undo")
	assert.Equal(t, "1 mm²", r.wire("W4").Size.String())
}
