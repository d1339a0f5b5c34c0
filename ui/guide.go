package ui

import (
	"bytes"
	"image"
	_ "image/png" // the pictures of the guide
	"path"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/assets"
)

// chapter is one heading of the guide and what stands below it: paragraphs and
// pictures in turn.
type chapter struct {
	title  string
	pieces []guidePiece
}

// guidePiece is text, or a picture with what it shows.
type guidePiece struct{ text, picture, shows string }

// guideChapters takes the guide apart at its headings.
func guideChapters(text string) []chapter {
	var all []chapter
	for _, part := range strings.Split("\n"+text, "\n## ")[1:] {
		title, body, _ := strings.Cut(part, "\n")
		c := chapter{title: title}
		var lines []string
		flush := func() {
			if s := strings.TrimSpace(strings.Join(lines, "\n")); s != "" {
				c.pieces = append(c.pieces, guidePiece{text: s})
			}
			lines = nil
		}
		for _, line := range strings.Split(body, "\n") {
			shows, file, ok := strings.Cut(strings.TrimPrefix(line, "!["), "](")
			if ok && strings.HasPrefix(line, "![") {
				flush()
				c.pieces = append(c.pieces, guidePiece{picture: strings.TrimSuffix(file, ")"), shows: shows})
				continue
			}
			lines = append(lines, line)
		}
		flush()
		all = append(all, c)
	}
	return all
}

// pictureWidth is how wide the guide shows its pictures, in window points.
const pictureWidth = 760

const (
	guideWidth = 1080 // of the box, in window points
	guideList  = 0.24 // the share of it that the list of chapters takes
)

// object shows the chapter.
func (c chapter) object() fyne.CanvasObject {
	box := container.NewVBox()
	for _, p := range c.pieces {
		if p.picture == "" {
			t := widget.NewRichTextFromMarkdown(p.text)
			t.Wrapping = fyne.TextWrapWord
			box.Add(t)
			continue
		}
		data, err := assets.Pictures.ReadFile(path.Clean(p.picture))
		var m image.Image
		if err == nil {
			m, _, err = image.Decode(bytes.NewReader(data))
		}
		if err != nil {
			box.Add(remark("The picture " + p.picture + " is missing.").CanvasObject)
			continue
		}
		img := canvas.NewImageFromImage(m)
		img.FillMode = canvas.ImageFillContain
		size := m.Bounds().Size()
		img.SetMinSize(fyne.NewSize(pictureWidth, pictureWidth*float32(size.Y)/float32(size.X)))
		box.Add(container.NewCenter(img))
		box.Add(remark(p.shows).CanvasObject)
	}
	return container.New(padded{8, 4}, box)
}

// showGuide opens the guide at its first chapter.
func (ed *Editor) showGuide() {
	all := guideChapters(assets.Guide)
	page := container.NewVScroll(all[0].object())
	list := newRows(ed.typedKey, func() int { return len(all) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(all[i].title) })
	list.OnSelected = func(i widget.ListItemID) {
		page.Content = all[i].object()
		page.Refresh()
		page.ScrollToTop()
	}
	list.Select(0)
	split := container.NewHSplit(list, page)
	split.Offset = guideList
	ed.openBox(&box{title: "Guide", about: "guide", content: split, size: fyne.NewSize(guideWidth, 760), answers: []answer{{text: "Close", main: true}}})
}
