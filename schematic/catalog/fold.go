package catalog

import (
	"strings"
	"unicode"
)

// plain maps accented Latin letters to the letters people type instead.
var plain = func() map[rune]string {
	m := map[rune]string{'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'ł': "l", 'đ': "d", 'ð': "d", 'þ': "th", 'ı': "i"}
	for base, accented := range map[string]string{
		"a": "àáâãäåāăą", "c": "çćĉċč", "d": "ď", "e": "èéêëēĕėęě", "g": "ĝğġģ", "h": "ĥħ", "i": "ìíîïĩīĭį",
		"j": "ĵ", "k": "ķ", "l": "ĺļľ", "n": "ñńņň", "o": "òóôõöōŏő", "r": "ŕŗř", "s": "śŝşšș", "t": "ţťț",
		"u": "ùúûüũūŭůűų", "w": "ŵ", "y": "ýÿŷ", "z": "źżž",
	} {
		for _, r := range accented {
			m[r] = base
		}
	}
	return m
}()

// fold returns the text in lower case without accents.
func fold(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch s, ok := plain[r]; {
		case ok:
			b.WriteString(s)
		case unicode.Is(unicode.Mn, r): // accents written as marks of their own
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
