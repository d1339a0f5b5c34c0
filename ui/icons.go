package ui

import (
	"embed"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

//go:embed icons/*.svg
var iconFiles embed.FS

// icon returns one of our own line icons, coloured by the theme. A name that
// is not in the icons folder is a mistake in the program.
func icon(name string) fyne.Resource { return theme.NewThemedResource(rawIcon(name)) }

// iconIn is icon in another colour of the theme.
func iconIn(name string, c fyne.ThemeColorName) fyne.Resource {
	return theme.NewColoredResource(rawIcon(name), c)
}

func rawIcon(name string) fyne.Resource {
	b, err := iconFiles.ReadFile("icons/" + name + ".svg")
	if err != nil {
		panic("ui: no icon " + name)
	}
	return fyne.NewStaticResource("lw-"+name+".svg", b)
}
