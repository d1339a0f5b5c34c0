package loomfile

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/route"
)

// maxShown is how many mistakes of a file are listed at once.
const maxShown = 20

// ErrVersion is wrapped by the error for a file of a newer format.
var ErrVersion = errors.New("the file was written by a newer version of the program")

// Mistakes are what keeps a file from being read, each with its place, in the
// order of the file.
type Mistakes struct {
	List []*canon.Error // at most 20
	More int            // how many more there are
}

func (m *Mistakes) Error() string {
	if len(m.List) == 1 && m.More == 0 {
		return m.List[0].Error()
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d mistakes in the file:", len(m.List)+m.More)
	for _, e := range m.List {
		b.WriteString("\n  ")
		b.WriteString(e.Error())
	}
	if m.More > 0 {
		fmt.Fprintf(&b, "\n  and %d more", m.More)
	}
	return b.String()
}

// Read reads a harness file of this or an older version, in canonical form or
// written by hand. Kinds come from lib and from the file; a part of a kind
// nobody defines is no mistake. Wires written
// by hand without bends get some where the plain way would run over something. Any other mistake gives an error and no
// document: *[canon.Error] or *[Mistakes] with places, or [ErrVersion].
func Read(r io.Reader, lib *schematic.Library) (*schematic.Doc, error) {
	data, err := canon.ReadAll(r)
	if err != nil {
		return nil, err
	}
	return Decode(data, lib)
}

// Decode is [Read] for bytes.
func Decode(data []byte, lib *schematic.Library) (*schematic.Doc, error) {
	t, err := canon.Parse(data)
	if err != nil {
		return nil, err
	}
	if err := checkHeader(t, Format, "a harness file", Version); err != nil {
		return nil, err
	}
	if err := migrate(t, migrations(), Version); err != nil {
		return nil, err
	}
	return build(t, lib)
}

// build makes a document of a tree of the current version.
func build(t *canon.Tree, lib *schematic.Library) (*schematic.Doc, error) {
	b, puts, err := collect(t)
	if err != nil {
		return nil, err
	}
	d := schematic.New(lib).WithExtra(b.f.Extra).With(puts...)
	if err := b.check(d); err != nil {
		return nil, err
	}
	return route.Fill(d, b.handWires), nil
}

// collect returns the items of a tree, each with an ID of its own.
func collect(t *canon.Tree) (*builder, []schematic.Put, error) {
	wires, err := byHand(t)
	if err != nil {
		return nil, nil, err
	}
	b := &builder{t: t, f: &file{}, handWires: wires}
	if err := t.Decode(b.f); err != nil {
		return nil, nil, err
	}
	puts := b.puts()
	return b, puts, b.mistakes.err(b.t)
}

// checkHeader refuses files of other formats and of newer versions.
func checkHeader(t *canon.Tree, format, what string, newest int) error {
	root := &t.Root
	if root.Kind != canon.Object {
		return t.Errorf(root, "", "this is not %s: it should be an object {…}, found %s", what, root.Kind)
	}
	f := root.Field("format")
	if f == nil {
		return t.Errorf(root, "", `this is not %s: it does not say "format": %q`, what, format)
	}
	if f.Text != format {
		return t.Errorf(f, "format", "this is not %s: the format should be %q, found %.40q", what, format, f.Text)
	}
	v := root.Field("version")
	if v == nil {
		return t.Errorf(root, "version", `the version is missing: write "version": %d`, newest)
	}
	n, err := version(root)
	if err != nil {
		return t.Errorf(v, "version", "%s", err)
	}
	if n > newest {
		return fmt.Errorf("%w (format version %d, this one knows up to %d): update the program to open it", ErrVersion, n, newest)
	}
	return nil
}

type builder struct {
	t        *canon.Tree
	f        *file
	mistakes mistakes
	// handWires are the wires written by hand, whose ways are chosen while reading.
	handWires []schematic.ID
}

// node returns the value in the file that an item was read from, and its path.
func (b *builder) node(s section, i int) (*canon.Node, string) {
	path := fmt.Sprintf("%s[%d]", s.list, i)
	return b.t.Root.Find(path), path
}

// puts returns all items and notes IDs that are used twice.
func (b *builder) puts() []schematic.Put {
	var puts []schematic.Put
	if b.f.Info != nil {
		puts = append(puts, schematic.Put{Key: b.f.Info.Key(), Item: b.f.Info})
	}
	for _, s := range sections {
		items := s.items(b.f)
		seen := make(map[schematic.ID]int, len(items))
		for i, it := range items {
			k := it.Key()
			first, twice := seen[k.ID]
			switch {
			case k.ID == schematic.ID{}:
				n, path := b.node(s, i)
				b.mistakes.add(n.Find("id"), path+".id", "an ID of zeros means no item: give the %s another, or leave the ID out", s.word)
			case twice:
				n, path := b.node(s, i)
				other, otherPath := b.node(s, first)
				b.mistakes.add(n.Find("id"), path+".id", "%s has the same ID as %s on line %s (%s): give one of them another ID or name",
					schematic.Describe(it), schematic.Describe(items[first]), line{b.t, other}, otherPath)
			}
			seen[k.ID] = i
			puts = append(puts, schematic.Put{Key: k, Item: it})
		}
	}
	return puts
}

// check turns the document's problems into mistakes with places.
func (b *builder) check(d *schematic.Doc) error {
	problems := schematic.Check(d)
	if len(problems) == 0 {
		return nil
	}
	at := make(map[schematic.Key]string, len(b.f.Parts)+len(b.f.Wires))
	for _, s := range sections {
		for i, it := range s.items(b.f) {
			at[it.Key()] = fmt.Sprintf("%s[%d]", s.list, i)
		}
	}
	at[schematic.Key{Type: schematic.TypeInfo}] = "info"
	for _, p := range problems {
		path := at[p.At]
		if p.Path != "" {
			path += "." + p.Path
		}
		b.mistakes.add(b.t.Root.Find(path), path, "%s", p.Text)
	}
	return b.mistakes.err(b.t)
}
