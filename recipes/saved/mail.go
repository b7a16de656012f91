package saved

import (
	"bytes"
	"encoding/base64"
	"errors"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"strings"

	"trencher/units/charset"
	"trencher/units/pattern"
	"trencher/units/strict"
)

var mailHead = pattern.New(`(?i)^(from|to|subject|date|sent|message-id|mime-version|return-path|received|content-type|delivered-to|x-[\w-]+):[ \t]`)

// mailHeadBytes is how far into a file its first two lines are looked for.
const mailHeadBytes = 8 << 10

// isMail tells a saved e-mail by two lines of its head.
func isMail(text string) bool {
	first, rest, _ := strings.Cut(text, "\n")
	second, _, _ := strings.Cut(rest, "\n")
	return mailHead.MatchString(first) && (mailHead.MatchString(second) || strings.HasPrefix(second, " ") || strings.HasPrefix(second, "\t"))
}

// mailData is a message without a mark and blank lines before it.
func mailData(data []byte) []byte {
	return bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
}

// subjectOf is a subject as text: what stands in it as it is, against the standard, is
// read in the set of the message; "" where that set does not have it.
func subjectOf(subject, set string) string {
	words := mime.WordDecoder{CharsetReader: func(set string, word io.Reader) (io.Reader, error) {
		data, err := io.ReadAll(word)
		if err != nil {
			return nil, err
		}
		text, err := charset.Text("", data, set)
		return strings.NewReader(text), err
	}}
	if text, err := words.DecodeHeader(subject); err == nil {
		subject = text
	}
	text, _ := charset.Text("", []byte(subject), "utf-8")
	if text == "" {
		text, _ = charset.Text("", []byte(subject), set)
	}
	return text
}

// inMail puts an error over a part of a message at its place in the file, where the
// part stands in it as it is.
func inMail(err error, whole, part []byte) error {
	var placed *strict.Error
	if start := bytes.Index(whole, part); start > 0 && errors.As(err, &placed) {
		placed.Line += bytes.Count(whole[:start], []byte("\n"))
	}
	return err
}

// fromMail reads a saved e-mail (RFC 5322, with the parts of RFC 2045): its
// plain text, else its page. The subject names a recipe that does not name
// itself.
func fromMail(file string, data []byte, o Options) (Recipe, error) {
	whole := data
	data = mailData(data)
	message, err := mail.ReadMessage(bytes.NewReader(data))
	if err != nil {
		text, err := charset.Text(file, data, o.Charset)
		return fromPlain(text), err
	}
	body, kind, set := mailPart(message.Header.Get("Content-Type"), message.Header.Get("Content-Transfer-Encoding"), message.Body, 0)
	if set == "" {
		set = o.Charset
	}
	text, err := charset.Text(file, body, set)
	if err != nil && o.Charset != "" { // what it names is not what it is in
		set = o.Charset
		text, err = charset.Text(file, body, set)
	}
	if err != nil {
		return Recipe{}, inMail(err, whole, body)
	}
	if len(text) > MostText && kind != "text/html" {
		return Recipe{}, at(file, 0, 0, "a message of more than 1 MB of text", "the recipe's text alone")
	}
	subject := subjectOf(message.Header.Get("Subject"), set)
	if kind == "text/html" {
		if recipe, err := fromPage(file, text, o); err == nil && recipe.Name != "" {
			return recipe, nil
		}
		text = pageText(text)
	}
	passed := false
	if inner := innerSubject.FindAllStringSubmatch(text, -1); len(inner) > 0 {
		subject, passed = strings.TrimSpace(inner[len(inner)-1][1]), true // of the message that was passed on
	}
	name := replyMarks.ReplaceAllString(subject, "")
	return fromNamed(text, name, passed || name != subject || !isTitle(name) || strings.HasSuffix(name, "!")), nil
}

var innerSubject = pattern.New(`(?im)^[>\s]*subject:[ \t]*(\S.*)$`)

var replyMarks = pattern.New(`(?i)^(\s*(re|fwd?|aw|wg)\s*:)+\s*`)

// mostParts bounds the parts of parts of a message.
const mostParts = 5

// mailPart decodes the part of a message to read: plain text before a page.
func mailPart(contentType, encoding string, body io.Reader, depth int) (data []byte, kind, set string) {
	kind, parameters, err := mime.ParseMediaType(contentType)
	if err != nil {
		kind = "text/plain"
	}
	if strings.HasPrefix(kind, "multipart/") && depth < mostParts {
		return firstOfParts(multipart.NewReader(body, parameters["boundary"]), kind, depth)
	}
	switch strings.ToLower(strings.TrimSpace(encoding)) {
	case "quoted-printable":
		body = quotedprintable.NewReader(body)
	case "base64":
		body = base64.NewDecoder(base64.StdEncoding, body)
	}
	data, _ = io.ReadAll(body) // a part that breaks off is read as far as it goes
	return data, kind, parameters["charset"]
}

// firstOfParts is the first part that is plain text, else the last that is a page.
func firstOfParts(parts *multipart.Reader, whole string, depth int) (data []byte, kind, set string) {
	kind = whole
	for {
		part, err := parts.NextRawPart()
		if err != nil {
			return data, kind, set
		}
		one, oneKind, oneCharset := mailPart(part.Header.Get("Content-Type"), part.Header.Get("Content-Transfer-Encoding"), part, depth+1)
		if oneKind == "text/plain" && len(one) > 0 {
			return one, oneKind, oneCharset
		}
		if oneKind == "text/html" {
			data, kind, set = one, oneKind, oneCharset
		}
	}
}
