package ingest

import (
	"bytes"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"feltpage/nlp"
)

// Remarks on how a text was taken in, as catalogue codes.
const (
	remarkOldEncoding = "ingest.remark.old-encoding" // read as Windows-1252
	remarkNoMark      = "ingest.remark.no-mark"      // UTF-16 without its mark
	remarkLost        = "ingest.remark.lost"         // the file itself has lost characters
	remarkTwice       = "ingest.remark.twice"        // looks as if encoded twice
)

// signatures begin files that are no plain text, or text for a program.
var signatures = []string{
	"pk\x03\x04", "\x89png", "\xff\xd8\xff", "\x7felf", "mz\x90", "\x1f\x8b", "7z\xbc\xaf", "\xd0\xcf\x11\xe0",
	"%pdf-", "{\\rtf", "<!doctype", "<html", "<?xml", "sqlite format 3\x00",
}

// signed reports whether the content begins as another kind of file does,
// large and small letters alike.
func signed(b []byte) bool {
	begin := slices.Clone(b[:min(len(b), 16)])
	for i, c := range begin {
		if 'A' <= c && c <= 'Z' {
			begin[i] += 'a' - 'A'
		}
	}
	return slices.ContainsFunc(signatures, func(s string) bool { return bytes.HasPrefix(begin, []byte(s)) })
}

// decode makes valid UTF-8 of the bytes, or names the kind of refusal. A byte
// order mark decides; else valid UTF-8 is taken as such, and what is left is
// read as Windows-1252 if that gives plausible text.
func decode(b []byte) (string, []nlp.Reason, error) {
	if signed(b) {
		return "", nil, ErrBinary
	}
	switch {
	case bytes.HasPrefix(b, []byte("\xef\xbb\xbf")):
		b = b[3:]
		if !utf8.Valid(b) {
			return "", nil, ErrEncoding
		}
	case bytes.HasPrefix(b, []byte("\xff\xfe\x00\x00")), bytes.HasPrefix(b, []byte("\x00\x00\xfe\xff")):
		return "", nil, ErrEncoding // UTF-32
	case bytes.HasPrefix(b, []byte("\xff\xfe")):
		return wide(b[2:], true)
	case bytes.HasPrefix(b, []byte("\xfe\xff")):
		return wide(b[2:], false)
	}
	if i := bytes.IndexByte(b, 0); i >= 0 {
		odd, even := 0, 0
		for i, c := range b {
			if c != 0 {
				continue
			}
			if i%2 == 0 {
				even++
			} else {
				odd++
			}
		}
		// English in UTF-16 has a zero in nearly every other byte.
		mostly := len(b) * 2 / 5
		if len(b) >= 8 && (odd > mostly && even == 0 || even > mostly && odd == 0) {
			text, remarks, err := wide(b, odd > mostly)
			return text, append(remarks, nlp.Reason{Code: remarkNoMark}), err
		}
		return "", nil, ErrBinary
	}
	if !utf8.Valid(b) {
		return eightBit(b)
	}
	return look(string(b))
}

// wide decodes UTF-16.
func wide(b []byte, little bool) (string, []nlp.Reason, error) {
	if len(b)%2 != 0 {
		return "", nil, ErrEncoding
	}
	units := make([]uint16, len(b)/2)
	for i := range units {
		lo, hi := b[2*i], b[2*i+1]
		if !little {
			lo, hi = hi, lo
		}
		units[i] = uint16(lo) | uint16(hi)<<8
	}
	runes := utf16.Decode(units)
	for i, r := range runes {
		// Decode gives U+FFFD for half a pair; a true U+FFFD is let through.
		if r == utf8.RuneError && units[min(i, len(units)-1)] != utf8.RuneError {
			return "", nil, ErrEncoding
		}
	}
	return look(string(runes))
}

// eightBit reads bytes that are no UTF-8 as Windows-1252, which holds Latin-1.
func eightBit(b []byte) (string, []nlp.Reason, error) {
	good, bad, letters := 0, 0, 0
	for rest := b; len(rest) > 0; {
		r, n := utf8.DecodeRune(rest)
		switch {
		case r == utf8.RuneError && n == 1:
			bad++
		case n > 1:
			good++
		}
		rest = rest[n:]
	}
	var text strings.Builder
	for _, c := range b {
		r := charmap.Windows1252.DecodeByte(c)
		switch {
		case r == utf8.RuneError, c >= 0x80 && unicode.IsControl(r):
			return "", nil, ErrEncoding // a byte that Windows-1252 does not use
		case c >= 0x80 && unicode.IsLetter(r):
			letters++
		}
		text.WriteRune(r)
	}
	// Many whole UTF-8 characters: a damaged UTF-8 file, not an old one. More
	// than a quarter accented letters: another language or another encoding.
	if good > bad || letters*4 > len(b) {
		return "", nil, ErrEncoding
	}
	out, remarks, err := look(text.String())
	return out, append(remarks, nlp.Reason{Code: remarkOldEncoding}), err
}

// look judges decoded text: many control characters make it binary.
func look(text string) (string, []nlp.Reason, error) {
	control, all := 0, 0
	for _, r := range text {
		all++
		if r == 0 {
			return "", nil, ErrBinary
		}
		if unicode.IsControl(r) && !strings.ContainsRune("\n\r\t\f\v\u0085\x1a", r) {
			control++
		}
	}
	if control*50 > all {
		return "", nil, ErrBinary
	}
	if strings.Contains(text, "â€") || strings.Count(text, "Ã") > 2 {
		return text, []nlp.Reason{{Code: remarkTwice}}, nil
	}
	return text, nil, nil
}

// lost counts characters that the file had lost before it came here, and
// reports whether they are too many for the text to be read.
func lost(text string) (n int, tooMany bool) {
	n = strings.Count(text, "\ufffd")
	return n, n*50 > utf8.RuneCountInString(text)
}
