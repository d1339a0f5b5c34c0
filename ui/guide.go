package ui

import (
	"bytes"
	"image"
	_ "image/png" // the pictures of the guide
	"path"
	"slices"
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

// pictureWidth is how wide the guide shows its pictures at most, in window points.
const pictureWidth = 760

const (
	guideWidth = 1080 // of the box, in window points
	guideList  = 0.24 // the share of it that the list of chapters takes
	guideEdges = 64   // of the box and the page, beside the text
)

// object shows the chapter, pictures in that width.
func (c chapter) object(width float32) fyne.CanvasObject {
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
		img.SetMinSize(fyne.NewSize(width, width*float32(size.Y)/float32(size.X)))
		box.Add(container.NewCenter(img))
		box.Add(remark(p.shows).CanvasObject)
	}
	return container.New(clearOfBar{}, container.New(padded{8, 4}, box))
}

// showGuide opens the guide at its first chapter. In a narrow window the
// chapters are chosen above the page instead of beside it.
func (ed *Editor) showGuide() {
	all := guideChapters(assets.Guide)
	room := min(guideWidth, ed.win.Canvas().Size().Width-40)
	width := min(pictureWidth, room*(1-guideList)-guideEdges)
	narrow := room < 900
	if narrow {
		width = min(pictureWidth, room-guideEdges)
	}
	page := container.NewVScroll(all[0].object(width))
	turn := func(i int) {
		page.Content = all[i].object(width)
		page.Refresh()
		page.ScrollToTop()
	}
	var content fyne.CanvasObject
	if narrow {
		var titles []string
		for _, c := range all {
			titles = append(titles, c.title)
		}
		choose := newPick(ed.typedKey, titles, func(s string) { turn(slices.Index(titles, s)) })
		choose.Selected = titles[0]
		content = container.NewBorder(choose, nil, nil, nil, page)
	} else {
		list := newRows(ed.typedKey, func() int { return len(all) },
			func() fyne.CanvasObject { return widget.NewLabel("") },
			func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(all[i].title) })
		list.OnSelected = turn
		list.Select(0)
		split := container.NewHSplit(list, page)
		split.Offset = guideList
		content = split
	}
	ed.openBox(&box{title: "Guide", about: "guide", content: content, size: fyne.NewSize(guideWidth, 760), answers: []answer{{text: "Close", main: true}}})
}
