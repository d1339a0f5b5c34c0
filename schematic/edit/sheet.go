package edit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// AddSheet adds a sheet after the last one; an empty name gets a number.
func AddSheet(tx *Tx, name string) error {
	name = strings.TrimSpace(name)
	all := tx.doc.Sheets()
	if name == "" {
		for n := len(all) + 1; name == "" || sheetNamed(all, name) != nil; n++ {
			name = "Sheet " + strconv.Itoa(n)
		}
	}
	if err := sheetNameFree(all, name, schematic.ID{}); err != nil {
		return err
	}
	s := &schematic.Sheet{ID: tx.NewID(), Name: name, Order: 1}
	if len(all) > 0 {
		last := all[len(all)-1]
		s.Order, s.Width, s.Height = last.Order+1, last.Width, last.Height
	}
	tx.Put(s)
	return nil
}

// RenameSheet gives a sheet another name.
func RenameSheet(tx *Tx, id schematic.ID, name string) error {
	return SetSheet(tx, id, func(s *schematic.Sheet) { s.Name = name })
}

// SetSheet changes name, size and notes of a sheet; change gets a copy.
func SetSheet(tx *Tx, id schematic.ID, change func(*schematic.Sheet)) error {
	s := tx.doc.Sheet(id)
	if s == nil {
		return fmt.Errorf("the sheet is no longer there")
	}
	c := *s
	change(&c)
	c.ID, c.Order, c.Name = s.ID, s.Order, strings.TrimSpace(c.Name)
	if c.Name == "" {
		return fmt.Errorf("sheet %q: a sheet needs a name", s.Name)
	}
	if c.Name != s.Name {
		if err := sheetNameFree(tx.doc.Sheets(), c.Name, id); err != nil {
			return err
		}
	}
	if c.Width < 0 || c.Height < 0 || c.Width > geom.MaxCoord || c.Height > geom.MaxCoord {
		return fmt.Errorf("sheet %q: a sheet is up to %d m wide and high", c.Name, geom.MaxCoord/geom.PerMM/1000)
	}
	tx.Put(&c)
	return nil
}

func sheetNamed(all []*schematic.Sheet, name string) *schematic.Sheet {
	for _, s := range all {
		if s.Name == name {
			return s
		}
	}
	return nil
}

func sheetNameFree(all []*schematic.Sheet, name string, me schematic.ID) error {
	if s := sheetNamed(all, name); s != nil && s.ID != me {
		return fmt.Errorf("another sheet is named %q: choose another name", name)
	}
	return nil
}

// MoveSheet puts a sheet at position to (0 is first) among the tabs; a
// position off the end is the end.
func MoveSheet(tx *Tx, id schematic.ID, to int) error {
	all := tx.doc.Sheets()
	from := slices.IndexFunc(all, func(s *schematic.Sheet) bool { return s.ID == id })
	if from < 0 {
		return fmt.Errorf("the sheet is no longer there")
	}
	s := all[from]
	all = slices.Delete(all, from, from+1)
	all = slices.Insert(all, max(0, min(to, len(all))), s)
	for i, s := range all {
		c := *s
		c.Order = i + 1
		tx.Put(&c)
	}
	return nil
}

// AddNote puts text on a sheet and selects it; with width and height, in
// units, it is a frame.
func AddNote(tx *Tx, sheet schematic.ID, at geom.Point, width, height int, text string) error {
	if tx.doc.Sheet(sheet) == nil {
		return fmt.Errorf("the sheet is no longer there: choose another one")
	}
	n := &schematic.Note{ID: tx.NewID(), Sheet: sheet, At: at, Width: width, Height: height, Text: text}
	if err := validNote(n); err != nil {
		return err
	}
	tx.Put(n)
	tx.Select(n.Key())
	return nil
}

// SetNote changes text, size and frame of a note; change gets a copy.
func SetNote(tx *Tx, id schematic.ID, change func(*schematic.Note)) error {
	n, ok := tx.doc.Get(schematic.Key{Type: schematic.TypeNote, ID: id}).(*schematic.Note)
	if !ok {
		return fmt.Errorf("the note is no longer there")
	}
	c := *n
	change(&c)
	c.ID, c.Sheet = n.ID, n.Sheet
	if err := validNote(&c); err != nil {
		return err
	}
	tx.Put(&c)
	return nil
}

func validNote(n *schematic.Note) error {
	if n.Width < 0 || n.Height < 0 || n.Size < 0 {
		return fmt.Errorf("the note: width, height and text size cannot be negative")
	}
	if strings.TrimSpace(n.Text) == "" && (n.Width == 0 || n.Height == 0) {
		return fmt.Errorf("the note is empty: write something, or delete it")
	}
	return onSheet("the note", n.At, n.At.Add(geom.Pt(min(n.Width, 2*geom.MaxCoord), min(n.Height, 2*geom.MaxCoord))))
}
