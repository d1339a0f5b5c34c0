package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
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

// EncodeOwn returns the file that holds one kind of the user's own library.
func EncodeOwn(k *schematic.Kind) ([]byte, error) {
	c := *k
	c.ID = schematic.ID{}
	return canon.Encode(&file{Kinds: []*schematic.Kind{&c}})
}
