package saved

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// mendJSON puts right what pages get wrong in their JSON, and leaves the rest
// alone: commas before a closing bracket, line breaks and tabs inside a text,
// escapes that are none, comments, wrappings of CDATA and of HTML comments,
// and a semicolon at the end. It never changes what stands in a text.
func mendJSON(text string) string {
	text = unwrap(text)
	var out strings.Builder
	out.Grow(len(text))
	for at := 0; at < len(text); {
		switch c := text[at]; {
		case c == '"':
			at = copyString(&out, text, at)
		case strings.HasPrefix(text[at:], "//"):
			at = after(text, at, "\n")
		case strings.HasPrefix(text[at:], "/*"):
			at = after(text, at+2, "*/")
		case c == ',' && closes(text[at+1:]):
			at++
		case c == 0xc2 && strings.HasPrefix(text[at:], "\u00a0"):
			out.WriteByte(' ')
			at += len("\u00a0")
		default:
			out.WriteByte(c)
			at++
		}
	}
	return out.String()
}

// wrappings stand around JSON in old pages.
var wrappings = []string{"//", "/*", "*/", "<![CDATA[", "]]>", "<!--", "-->", ";", "\ufeff"}

// unwrap takes off what stands before the first bracket and after the last.
func unwrap(text string) string {
	for again := true; again; {
		again = false
		text = strings.TrimSpace(text)
		for _, mark := range wrappings {
			if rest, ok := strings.CutPrefix(text, mark); ok {
				text, again = strings.TrimSpace(rest), true
			}
			if rest, ok := strings.CutSuffix(text, mark); ok {
				text, again = strings.TrimSpace(rest), true
			}
		}
	}
	return text
}

// closes tells whether the next thing that counts closes a list or an object,
// or is another comma.
func closes(text string) bool {
	rest := strings.TrimLeft(text, " \t\r\n\u00a0")
	return rest == "" || rest[0] == ']' || rest[0] == '}' || rest[0] == ','
}

// after is the offset behind the next mark, or the end.
func after(text string, at int, mark string) int {
	if found := strings.Index(text[min(at, len(text)):], mark); found >= 0 {
		return at + found + len(mark)
	}
	return len(text)
}

// copyString copies one text with its quotes, and returns the offset behind
// it.
func copyString(out *strings.Builder, text string, at int) int {
	out.WriteByte('"')
	for at++; at < len(text); at++ {
		switch c := text[at]; {
		case c == '"':
			out.WriteByte('"')
			return at + 1
		case c == '\\' && at+1 < len(text):
			at++
			if strings.IndexByte(`"\/bfnrtu`, text[at]) < 0 {
				_, size := utf8.DecodeRuneInString(text[at:])
				out.WriteString(text[at : at+size])
				at += size - 1
				continue
			}
			out.WriteString(text[at-1 : at+1])
		case c < ' ':
			fmt.Fprintf(out, `\u%04x`, c)
		default:
			out.WriteByte(c)
		}
	}
	return at
}
