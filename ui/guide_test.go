package ui

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
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
		assert.LessOrEqual(t, widget.NewLabel(c.title).MinSize().Width, float32(guideWidth*guideList), "%q fits in the list", c.title)
	}
	for _, c := range all {
		assert.NotEmpty(t, c.pieces, c.title)
		walk(c.object(pictureWidth), func(o fyne.CanvasObject) {
			if _, ok := o.(*canvas.Image); ok {
				pictures++
			}
		})
	}
	assert.Equal(t, strings.Count(assets.Guide, "!["), pictures, "every picture is there")
	r.tap("Close")
}

// What the guide and the readme call a command has to be one, and so have keys.
func TestTheGuideAndTheReadmeNameCommandsThatExist(t *testing.T) {
	r := newRig(t, "")
	readme, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	tour, _, ok := strings.Cut(string(readme), "## Without a window")
	require.True(t, ok, "the readme has its tour before the headless tool")
	known, keys := map[string]bool{}, map[string]bool{}
	for _, a := range r.actions.All() {
		known[strings.TrimSuffix(a.Title, "…")] = true
		for _, menu := range strings.Split(a.Menu, "/") {
			known[menu] = true
		}
		for _, k := range a.Keys {
			keys[k.String()] = true
		}
	}
	// Meant by the tools and the boxes themselves, or parts of others.
	for _, k := range []string{"Esc", "Enter", "Shift", "Ctrl", "Alt", "Delete", "Tab", "Space"} {
		keys[k] = true
	}
	command := regexp.MustCompile(`\*(?:File|Edit|Select|Arrange|View|Draw|Sheets|Check|Help)(?: › [^*›]+)+\*`)
	key := regexp.MustCompile("`((?:(?:Ctrl|Shift|Alt)\\+)*(?:F[0-9]+|[A-Z0-9]|Esc|Enter|Tab|Delete|Space|PageDown|PageUp))`")
	for name, text := range map[string]string{"guide": assets.Guide, "readme": tour} {
		found := command.FindAllString(text, -1)
		require.NotEmpty(t, found, name)
		for _, c := range found {
			for _, step := range strings.Split(strings.Trim(c, "*"), " › ") {
				assert.True(t, known[strings.TrimSuffix(step, "…")], "%s: %q in %s is neither a command nor a menu", name, step, c)
			}
		}
		for _, m := range key.FindAllStringSubmatch(text, -1) {
			assert.True(t, keys[m[1]], "%s: no command has the key %s", name, m[1])
		}
	}
}
