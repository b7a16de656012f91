package render

import (
	"strings"
	"time"
)

// DeviceWords says in plain words what calls itself so in a User-Agent, such as
// "Android phone, Firefox" (RFC 9110, section 10.1.5): who looks down a list
// knows the thing in the hand by them. What calls itself otherwise than it is
// does it no harm.
func DeviceWords(agent string) string {
	device := firstNamed(agent, kinds)
	if device == "" {
		device = "A device of an unknown kind"
	}
	if device == "Android tablet" && strings.Contains(agent, "Mobile") {
		device = "Android phone"
	}
	if browser := firstNamed(agent, browsers); browser != "" {
		device += ", " + browser
	}
	return device
}

// named is what a part of a User-Agent means.
type named struct{ part, word string }

// The first that stands in a User-Agent counts: many name others besides
// themselves (common practice, no source).
var (
	kinds = []named{{"iPhone", "iPhone"}, {"iPad", "iPad"}, {"Android", "Android tablet"}, {"Windows", "Windows computer"},
		{"CrOS", "ChromeOS computer"}, {"Macintosh", "Mac"}, {"Linux", "Linux computer"}}
	browsers = []named{{"Firefox/", "Firefox"}, {"FxiOS/", "Firefox"}, {"Edg/", "Edge"}, {"EdgA/", "Edge"}, {"EdgiOS/", "Edge"}, {"OPR/", "Opera"},
		{"SamsungBrowser/", "the maker's browser"}, {"CriOS/", "Chrome"}, {"Chrome/", "Chrome"}, {"Safari/", "Safari"}}
)

func firstNamed(agent string, list []named) string {
	for _, one := range list {
		if strings.Contains(agent, one.part) {
			return one.word
		}
	}
	return ""
}

// Moment is a day and a time of it, "Sat 12 Jul 16:40".
func Moment(at time.Time) string { return at.Format("Mon 2 Jan 15:04") }
