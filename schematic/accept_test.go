package schematic

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSubjectNamesEveryTypeButAcceptances(t *testing.T) {
	for _, typ := range Types() {
		if typ == TypeAcceptance {
			continue
		}
		k := Key{Type: typ, ID: testID(7)}
		if typ == TypeInfo {
			k.ID = ID{}
		}
		assert.Equal(t, k, SubjectOf(k).Key(), "%s", typ)
	}
	assert.Equal(t, Key{Type: TypeInfo}, Subject{}.Key(), "the document itself")
}
