package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"sort"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// OwnFolder is the folder of the user's own kinds, within the folder of the
// program's settings.
const OwnFolder = "kinds"

// LoadOwn reads the user's own kinds, kinds/*.json of a file system. A file
// that cannot be used is left out and named in the error, which is joined of
// one for each; the rest is returned all the same. Minor problems are no reason
// to leave a kind out (see [Problem]).
func LoadOwn(fsys fs.FS, taken *schematic.Library) ([]*schematic.Kind, error) {
	names, err := fs.Glob(fsys, OwnFolder+"/*.json")
	if err != nil {
		return nil, fmt.Errorf("list your part kinds: %w", err)
	}
	sort.Strings(names)
	var kinds []*schematic.Kind
	var bad []error
	from := map[string]string{}
	for _, name := range names {
		read, err := readOwn(fsys, name)
		if err != nil {
			bad = append(bad, err)
			continue
		}
		for _, k := range read {
			switch other, twice := from[k.Name]; {
			case taken.Kind(k.Name) != nil:
				bad = append(bad, fmt.Errorf("%s: the program has a part kind %q itself: rename yours", path.Base(name), k.Name))
			case twice:
				bad = append(bad, fmt.Errorf("%s: part kind %q is in %s too: rename one", path.Base(name), k.Name, other))
			default:
				from[k.Name] = path.Base(name)
				kinds = append(kinds, k)
			}
		}
	}
	return kinds, errors.Join(bad...)
}

func readOwn(fsys fs.FS, name string) ([]*schematic.Kind, error) {
	data, err := fs.ReadFile(fsys, name)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", path.Base(name), err)
	}
	var f file
	if err := canon.Decode(data, &f); err != nil {
		return nil, fmt.Errorf("%s: %w", path.Base(name), err)
	}
	for _, k := range f.Kinds {
		for _, p := range Validate(k) {
			if !p.Minor {
				return nil, fmt.Errorf("%s: part kind %q: %s", path.Base(name), k.Name, p)
			}
		}
		k.ID = schematic.ID{} // a kind of a library has none
	}
	return f.Kinds, nil
}

// FindOwn returns the file of the user's own library, kinds/*.json of a file
// system, that holds a kind, with all that is in it; "" when none does. Files
// that cannot be used are passed over.
func FindOwn(fsys fs.FS, kind string) (name string, holds []*schematic.Kind) {
	names, err := fs.Glob(fsys, OwnFolder+"/*.json")
	if err != nil {
		return "", nil
	}
	sort.Strings(names)
	for _, name := range names {
		kinds, err := readOwn(fsys, name)
		if err == nil && slices.ContainsFunc(kinds, func(k *schematic.Kind) bool { return k.Name == kind }) {
			return name, kinds
		}
	}
	return "", nil
}

// EncodeOwn returns a file of the user's own library that holds some kinds.
func EncodeOwn(kinds ...*schematic.Kind) ([]byte, error) {
	var f file
	for _, k := range kinds {
		c := *k
		c.ID = schematic.ID{}
		f.Kinds = append(f.Kinds, &c)
	}
	return canon.Encode(&f)
}
