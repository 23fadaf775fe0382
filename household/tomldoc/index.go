package tomldoc

import (
	"strconv"
	"strings"
)

// maxNesting bounds how deep brackets may nest in a file; nothing that people
// write here comes near it, and parsers recurse.
const maxNesting = 64

// Stretch is a range of bytes in a text.
type Stretch struct{ from, to int }

// keyAt is where one key stands, and its value. A table's header is both.
type keyAt struct {
	// keys is the path without element numbers, as the TOML library lists it.
	keys       []string
	key, value Stretch
}

// index holds the position of every key of a TOML text by its path with the
// numbers of array elements, which the TOML library loses. It is made by a scan
// that knows only as much of TOML as positions need, and relies on the library
// to refuse what is not TOML.
type index struct {
	text    string
	at      int
	entries []keyAt
	byPath  map[string]int
	// elements counts the elements of each array of tables.
	elements map[string]int
	depth    int
	tooDeep  bool
}

// sub extends a path by a key or, as "#0", by the number of an element.
func sub(path, part string) string {
	if path == "" {
		return part
	}
	return path + "\x00" + part
}

func element(path string, i int) string { return sub(path, "#"+strconv.Itoa(i)) }

// newIndex scans a text. It never fails: on text that is not TOML it finds what
// it can.
func newIndex(text string) *index {
	x := &index{text: text, byPath: map[string]int{}, elements: map[string]int{}}
	var table string
	var keys []string
	for x.blank(true); x.at < len(text) && !x.tooDeep; x.blank(true) {
		before := x.at
		if text[x.at] == '[' {
			table, keys = x.header()
		} else {
			x.pair(table, keys)
		}
		if x.at == before {
			x.at++
		}
	}
	return x
}

// blank skips white space and, if asked, line ends and comments.
func (x *index) blank(lines bool) {
	for x.at < len(x.text) {
		switch c := x.text[x.at]; {
		case c == ' ' || c == '\t', lines && (c == '\n' || c == '\r'):
			x.at++
		case lines && c == '#':
			x.restOfLine()
		default:
			return
		}
	}
}

func (x *index) restOfLine() {
	if n := strings.IndexByte(x.text[x.at:], '\n'); n >= 0 {
		x.at += n
	} else {
		x.at = len(x.text)
	}
}

func (x *index) next(c byte) bool {
	if x.at < len(x.text) && x.text[x.at] == c {
		x.at++
		return true
	}
	return false
}

// header reads "[a.b]" or "[[a.b]]" and returns the path that its keys get.
func (x *index) header() (string, []string) {
	start := x.at
	x.at++
	array := x.next('[')
	parts, _ := x.key()
	x.next(']')
	if array {
		x.next(']')
	}
	path, keys := "", []string{}
	for i, p := range parts {
		path, keys = sub(path, p), append(keys, p)
		last := i == len(parts)-1
		n, many := x.elements[path]
		switch {
		case last && array:
			x.elements[path] = n + 1
			path = element(path, n)
		case many && !last:
			path = element(path, n-1)
		}
	}
	span := Stretch{start, x.at}
	x.add(path, keys, span, span)
	return path, keys
}

// pair reads "key = value" of a table.
func (x *index) pair(table string, keys []string) {
	parts, span := x.key()
	path := table
	all := append(make([]string, 0, len(keys)+len(parts)), keys...)
	for _, p := range parts {
		path = sub(path, p)
		all = append(all, p)
	}
	x.blank(false)
	if !x.next('=') {
		return
	}
	x.blank(false)
	n := x.add(path, all, span, Stretch{})
	x.entries[n].value = x.value(path, all)
}

func (x *index) add(path string, keys []string, key, value Stretch) int {
	n := len(x.entries)
	x.entries = append(x.entries, keyAt{keys, key, value})
	if _, twice := x.byPath[path]; !twice {
		x.byPath[path] = n
	}
	return n
}

// key reads a dotted key.
func (x *index) key() (parts []string, span Stretch) {
	span.from = x.at
	for {
		x.blank(false)
		start := x.at
		if x.at < len(x.text) && (x.text[x.at] == '"' || x.text[x.at] == '\'') {
			parts = append(parts, x.quoted())
		} else {
			for x.at < len(x.text) && !strings.ContainsRune(" \t\r\n.=[]{},#\"'", rune(x.text[x.at])) {
				x.at++
			}
			parts = append(parts, x.text[start:x.at])
		}
		span.to = x.at
		x.blank(false)
		if len(parts) > maxNesting {
			x.tooDeep = true
		}
		if !x.next('.') || x.tooDeep {
			return parts, span
		}
	}
}

// quoted reads a one-line string and returns what it means.
func (x *index) quoted() string {
	quote, start := x.text[x.at], x.at
	x.at++
	for x.at < len(x.text) && x.text[x.at] != quote && x.text[x.at] != '\n' {
		if x.text[x.at] == '\\' && quote == '"' {
			x.at++
		}
		x.at++
	}
	x.at = min(x.at, len(x.text))
	inside := x.text[start+1 : x.at]
	x.next(quote)
	if quote == '"' && strings.Contains(inside, `\`) {
		return unescape(inside)
	}
	return inside
}

// value skips a value and notes what lies inside it.
func (x *index) value(path string, keys []string) Stretch {
	start := x.at
	if x.depth++; x.depth > maxNesting {
		x.tooDeep = true
	}
	defer func() { x.depth-- }()
	switch {
	case x.tooDeep || x.at >= len(x.text):
		x.at = len(x.text)
	case strings.HasPrefix(x.text[x.at:], `"""`), strings.HasPrefix(x.text[x.at:], `'''`):
		x.longString()
	case x.text[x.at] == '"', x.text[x.at] == '\'':
		x.quoted()
	case x.text[x.at] == '[':
		x.array(path, keys)
	case x.text[x.at] == '{':
		x.inlineTable(path, keys)
	default:
		for x.at < len(x.text) && !strings.ContainsRune(",]}#\r\n", rune(x.text[x.at])) {
			x.at++
		}
		return Stretch{start, start + len(strings.TrimRight(x.text[start:x.at], " \t"))}
	}
	return Stretch{start, x.at}
}

// longString skips a string in three quotes, which may end in up to two more.
func (x *index) longString() {
	quotes := x.text[x.at : x.at+3]
	x.at += 3
	for x.at < len(x.text) && !strings.HasPrefix(x.text[x.at:], quotes) {
		if x.text[x.at] == '\\' && quotes[0] == '"' {
			x.at++
		}
		x.at++
	}
	x.at = min(x.at+3, len(x.text))
	for range 2 {
		x.next(quotes[0])
	}
}

func (x *index) array(path string, keys []string) {
	x.at++
	for i := 0; ; i++ {
		x.blank(true)
		if x.at >= len(x.text) || x.next(']') {
			return
		}
		before := x.at
		one := element(path, i)
		n := x.value(one, keys)
		if x.text[n.from:n.to] != "" {
			x.noteElement(one, n)
		}
		x.blank(true)
		if !x.next(',') && x.at == before {
			x.at++
		}
	}
}

// noteElement keeps the position of an array's element, which has no key.
func (x *index) noteElement(path string, at Stretch) {
	x.byPath[path] = len(x.entries)
	x.entries = append(x.entries, keyAt{nil, at, at})
}

func (x *index) inlineTable(path string, keys []string) {
	x.at++
	for {
		x.blank(true)
		if x.at >= len(x.text) || x.next('}') {
			return
		}
		before := x.at
		x.pair(path, keys)
		x.blank(true)
		if !x.next(',') && x.at == before {
			x.at++
		}
	}
}

// unescape resolves the escapes of a basic string in a key.
func unescape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' || i+1 == len(s) {
			b.WriteByte(s[i])
			continue
		}
		i++
		digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[s[i]]
		if digits > 0 && i+digits < len(s) {
			if n, err := strconv.ParseUint(s[i+1:i+1+digits], 16, 32); err == nil {
				b.WriteRune(rune(n))
				i += digits
				continue
			}
		}
		if c, ok := map[byte]byte{'b': '\b', 't': '\t', 'n': '\n', 'f': '\f', 'r': '\r', 'e': 0x1b, '"': '"', '\\': '\\'}[s[i]]; ok {
			b.WriteByte(c)
		} else {
			b.WriteString(s[i-1 : i+1])
		}
	}
	return b.String()
}
