package ui

import (
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/assets"
)

func TestTheGuideOpensWithItsPictures(t *testing.T) {
	r := newRig(t, "")
	assert.Equal(t, "help.guide", r.recentFirst("guide")[0].ID, "found by its name")
	r.do("help.guide")
	require.True(t, r.boxOpen())
	all := guideChapters(assets.Guide)
	require.Greater(t, len(all), 6)
	pictures := 0
	for _, c := range all {
		assert.NotEmpty(t, c.pieces, c.title)
		walk(c.object(), func(o fyne.CanvasObject) {
			if _, ok := o.(*canvas.Image); ok {
				pictures++
			}
		})
	}
	assert.Equal(t, strings.Count(assets.Guide, "!["), pictures, "every picture is there")
	r.tap("Close")
}

// What the guide calls a command has to be one.
func TestTheGuideNamesCommandsThatExist(t *testing.T) {
	r := newRig(t, "")
	titles := map[string]bool{}
	for _, a := range r.actions.All() {
		titles[a.Title] = true
	}
	for _, m := range regexp.MustCompile(`\*(?:File|Edit|View|Check|Help)(?: › [^*›]+)*? › ([^*›]+)\*`).FindAllStringSubmatch(assets.Guide, -1) {
		menu := false
		for _, a := range r.actions.All() {
			menu = menu || strings.HasSuffix(a.Menu, "/"+m[1])
		}
		assert.True(t, titles[m[1]] || menu, "%q is neither a command nor a menu", m[1])
	}
}
