package ui

import (
	"bytes"
	"embed"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

//go:embed icons/*.svg
var iconFiles embed.FS

// lineIcon is one of our own line icons in a colour of the theme. The toolkit
// can only colour filled shapes, so the stroke colour is put in here; the name
// tells the colours apart, since pictures are kept by name. Every shape says
// itself that it is not filled: on a button that is off the toolkit fills those
// that do not.
type lineIcon struct {
	name string
	in   fyne.ThemeColorName
}

// icon returns a line icon in the colour of text. A name that is not in the
// icons folder is a mistake in the program.
func icon(name string) fyne.Resource { return iconIn(name, theme.ColorNameForeground) }

// iconIn is icon in another colour of the theme.
func iconIn(name string, c fyne.ThemeColorName) fyne.Resource { return lineIcon{name, c} }

func (l lineIcon) hex() string {
	r, g, b, _ := theme.Color(l.in).RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

func (l lineIcon) Name() string { return "lw-" + l.name + l.hex() + ".svg" }

func (l lineIcon) Content() []byte {
	b, err := iconFiles.ReadFile("icons/" + l.name + ".svg")
	if err != nil {
		panic("ui: no icon " + l.name)
	}
	return bytes.ReplaceAll(b, []byte("#000000"), []byte(l.hex()))
}
