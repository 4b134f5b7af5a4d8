package evaluate

import (
	"regexp"
	"strings"

	"feltpage/app/inspect"
)

var (
	word       = regexp.MustCompile(`[a-z][a-z'’-]*`)
	possessive = regexp.MustCompile(`['’]s$`)
	notHeads   = set(`the a an of his her their its my your our this that these those and with who whom to in on at for some one two three all every each old young little poor good big great first second third other`)
	pronouns   = set(`he she it they him her them his hers its their theirs i me my mine we us our you your himself herself itself themselves myself`)
)

func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

func words(s string) []string { return word.FindAllString(strings.ToLower(s), -1) }

// content gives the words of a name that tell it from others.
func content(s string) []string {
	var out []string
	for _, w := range words(s) {
		w = possessive.ReplaceAllString(w, "")
		if !notHeads[w] {
			out = append(out, w)
		}
	}
	return out
}

func last(s []string) string {
	if len(s) == 0 {
		return ""
	}
	return s[len(s)-1]
}

// names gives all that a character is called in the text, pronouns too.
func names(d inspect.Object, id int, text string) []string {
	if id < 0 {
		return nil
	}
	for _, c := range d.Characters {
		if c.ID != id {
			continue
		}
		out := append([]string{c.Name}, c.Aliases...)
		for _, m := range c.Mentions {
			out = append(out, text[m[0]:m[1]])
		}
		return out
	}
	return nil
}

// sameCharacter reports whether one of the names has the target's head noun or
// name; a target that is a pronoun asks for an equal mention.
func sameCharacter(names []string, target string) bool {
	t, tw := content(target), words(target)
	if len(t) == 0 {
		for _, n := range names {
			if strings.Join(words(n), " ") == strings.Join(tw, " ") {
				return true
			}
		}
		return false
	}
	head, in := last(t), set(strings.Join(t, " "))
	for _, n := range names {
		var c []string
		for _, w := range content(n) {
			if !pronouns[w] {
				c = append(c, w)
			}
		}
		if len(c) == 0 {
			continue
		}
		shared, has := false, false
		for _, w := range c {
			shared = shared || in[w]
			has = has || w == head
		}
		if last(c) == head || shared && (in[last(c)] || has) {
			return true
		}
	}
	if pronouns[last(tw)] {
		for _, n := range names {
			if last(words(n)) == last(tw) {
				return true
			}
		}
	}
	return false
}
