package records

// indented sets out compact JSON like json.Indent with two spaces. A record is long,
// and a thousand are written at once: the library's own way, which checks every
// character again, takes several times as long.
func indented(compact []byte) []byte {
	out := make([]byte, 0, 2*len(compact))
	depth := 0
	line := func() {
		out = append(out, '\n')
		for range depth {
			out = append(out, ' ', ' ')
		}
	}
	for i := 0; i < len(compact); i++ {
		switch c := compact[i]; c {
		case '"':
			end := i + 1 + stringEnd(compact[i+1:])
			out = append(out, compact[i:end]...)
			i = end - 1
		case '{', '[':
			out = append(out, c)
			if i+1 < len(compact) && compact[i+1] == c+2 { // the bracket that closes it
				i++
				out = append(out, c+2)
				continue
			}
			depth++
			line()
		case '}', ']':
			depth--
			line()
			out = append(out, c)
		case ',':
			out = append(out, c)
			line()
		case ':':
			out = append(out, c, ' ')
		default:
			out = append(out, c)
		}
	}
	return out
}

// stringEnd returns the place behind the quote that ends a JSON string, of which
// the opening quote is read.
func stringEnd(text []byte) int {
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return len(text)
}
