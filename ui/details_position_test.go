package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestASwitchIsSwitchedInItsDetails(t *testing.T) {
	r := newRig(t, "")
	r.takePart("switch-illuminated")
	r.click(100, 100)
	r.key("Escape")
	r.sess.Select(r.named("S1"))
	state := r.doc().States()[0].ID
	require.Equal(t, state, r.study.state)
	find := func() *choice {
		for _, c := range r.details.controls {
			if c, ok := c.(*choice); ok && len(c.options()) == 2 && c.options()[1] == "on" {
				return c
			}
		}
		require.Fail(t, "no choice of the position")
		return nil
	}
	assert.Equal(t, "off", find().sel.Selected)
	find().sel.SetSelected("on")
	assert.Equal(t, []schematic.Setting{{Part: r.part("S1").ID, Position: "on"}}, r.doc().State(state).Set)
	r.do("edit.undo")
	assert.Empty(t, r.doc().State(state).Set)
	assert.Equal(t, "off", find().sel.Selected, "the panel follows")
	r.setState(r.doc().States()[1].ID)
	find().sel.SetSelected("on")
	assert.Len(t, r.doc().States()[1].Set, 1, "it goes for the state looked at")
	assert.Empty(t, r.doc().State(state).Set)
}
