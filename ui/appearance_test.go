package ui

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"
	"loomwright/schematic/loomfile"
)

// sheetTexts are the words written on the sheet in sight.
func (r *rig) sheetTexts() string {
	var b strings.Builder
	for _, m := range r.basePicture().list.Marks {
		if t, ok := m.Op.(*draw.Text); ok {
			b.WriteString(t.S + "\n")
		}
	}
	return b.String()
}

func TestUnitsCanBeSwitchedAtAnyTime(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	before, err := loomfile.Encode(r.doc())
	require.NoError(t, err)
	r.choose(r.named("W5"))
	w := r.wire("W5")
	metric := r.sheetTexts()
	require.Contains(t, metric, "W5 "+strings.TrimSuffix(w.Size.String(), " mm²"))
	r.do("view.awg")
	r.do("view.imperial")
	assert.Contains(t, r.sheetTexts(), "≈AWG")
	assert.Contains(t, r.fieldNamed("Slack").input.PlaceHolder, "none")
	r.choose()
	assert.Contains(t, r.fieldNamed("Air temperature").input.Text+r.fieldNamed("Air temperature").input.PlaceHolder, "°F")
	var said strings.Builder
	for i := range r.drawer.findings.shown {
		x := r.drawer.findings.shown[i]
		said.WriteString(r.shows().Text(x.Text))
	}
	assert.NotContains(t, said.String(), " mm²")
	r.do("view.sizes")
	r.do("view.metric")
	assert.Equal(t, metric, r.sheetTexts())
	after, err := loomfile.Encode(r.doc())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after), "nothing of it is in the drawing")
	assert.False(t, r.sess.Modified())
}

func TestTheSizeOfEverything(t *testing.T) {
	t.Setenv(scaleVar, "1.5")
	settings := t.TempDir()
	r := rigIn(t, copyLamps(t), settings)
	r.do("view.larger")
	assert.Equal(t, 110, r.prog.percent())
	assert.Equal(t, "1.7", os.Getenv(scaleVar), "of what the system asks for; the toolkit knows tenths")
	r.do("view.percent200")
	assert.Equal(t, "3.0", os.Getenv(scaleVar))
	assert.False(t, r.actions.Find("view.larger").IsEnabled())
	t.Setenv(scaleVar, "1")
	r = rigIn(t, copyLamps(t), settings)
	assert.Equal(t, "2.0", os.Getenv(scaleVar), "it lasts")
	r.do("view.percent100")
	assert.Equal(t, "1.0", os.Getenv(scaleVar))
}

func TestLightAndDarkAsTheSystem(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.do("view.dark")
	assert.True(t, r.prog.dark)
	r.do("view.system")
	assert.False(t, r.prog.dark, "the test system prefers light")
	assert.True(t, r.actions.Find("view.system").Checked())
	assert.False(t, r.actions.Find("view.dark").Checked())
	r.do("view.light")
	assert.False(t, r.store.FollowSystem)
}
