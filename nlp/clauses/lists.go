package clauses

// The lists below are own judgement from grammar; verbs that take an object
// and an infinitive follow common practice, no source.

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

var (
	// negations are adverbs that deny the verb they stand beside.
	negations = set("not", "n't", "never", "nae", "neither", "nor", "nowise", "noways")

	// quantifier are determiners that may float or stand before another.
	quantifier = set("all", "both", "half", "each", "such", "many", "what", "quite")

	// pronominal are determiners that may stand alone.
	pronominal = set("this", "that", "these", "those", "all", "both", "each", "some", "any", "none", "another",
		"either", "neither", "half", "such")
	// graded come before an adjective that stands before "a": "so great a king".
	graded = set("so", "too", "how", "as", "such", "many", "quite", "what")
	// quantities are adjectives that may stand alone before "of" or a verb.
	quantities = set("many", "most", "few", "several", "much", "more", "others", "enough")
	ordinals   = set("second", "third", "fourth", "fifth", "sixth", "seventh", "few")
	pointing   = set("this", "that", "these", "those", "every", "each", "another", "either", "neither")

	// times are nouns that say when or how long, not who or what.
	times = set("meantime", "meanwhile", "sunset", "sunrise", "dawn", "dusk", "nightfall", "daybreak", "day", "night", "morning", "evening", "afternoon", "noon", "midnight", "time", "while", "moment",
		"year", "hour", "week", "month", "minute", "instant", "summer", "winter", "autumn",
		"today", "tomorrow", "yesterday", "tonight", "monday", "tuesday", "wednesday", "thursday", "friday",
		"saturday", "sunday", "once", "twice", "mile", "league", "yard", "inch", "way", "home", "fortnight", "to-day", "to-morrow", "to-night")

	// copulas may take a predicative adjective.
	copulas = set("be", "feel", "seem", "look", "grow", "turn", "become", "get", "appear", "remain", "stay", "keep",
		"sound", "go", "fall", "stand", "sit", "lie", "wax", "prove", "taste", "smell", "run", "wake", "awake",
		"shine", "blush", "flush", "wear", "live", "die", "return", "arrive", "lay", "come", "rest", "continue",
		"wait", "burn", "work", "glow", "walk", "sleep", "ride", "hang")
	// equatives take a noun as predicate.
	equatives = set("be", "become", "remain", "seem")

	// objectAdjective are verbs with an object and a predicate of it.
	objectAdjective = set("make", "leave", "drive", "turn", "keep", "find", "feel", "think", "hold", "set", "see", "get",
		"render", "consider", "paint", "strike", "send", "frighten", "scare", "wish", "want", "have", "call", "eat", "lay")

	// objectControl are verbs whose object does what the infinitive says.
	objectControl = set("make", "let", "see", "hear", "feel", "watch", "bid", "tell", "ask", "beg", "order", "command",
		"want", "wish", "allow", "permit", "force", "cause", "help", "teach", "send", "call", "persuade", "urge",
		"compel", "get", "have", "need", "entreat", "implore", "forbid", "invite", "expect", "leave", "lead", "advise",
		"enable", "oblige", "pray", "beseech", "warn", "set", "charge", "bring", "drive", "move", "notice", "observe",
		"find", "know", "intend", "desire", "believe", "request", "bribe", "hire", "direct", "instruct", "prompt", "tempt", "encourage", "suffer", "like", "choose", "appoint", "summon", "behold", "perceive")

	// nounControl are those of them whose object may be any noun: "made haste to
	// go" is no such case, "ordered the men to go" is.
	nounControl = set("tell", "ask", "order", "command", "beg", "bid", "persuade", "allow", "permit", "force", "teach", "help",
		"send", "urge", "compel", "invite", "want", "wish", "entreat", "implore", "cause", "forbid", "advise", "warn", "call",
		"summon", "charge", "lead", "encourage", "tempt", "oblige", "enable", "expect", "let", "intend", "suffer", "appoint",
		"beseech", "pray", "request", "bribe", "hire", "drive", "get", "desire", "direct", "instruct", "prompt")

	// bareInfinitive are those after which it comes without "to".
	bareInfinitive = set("make", "let", "see", "hear", "feel", "watch", "bid", "help", "have", "notice", "observe", "behold", "perceive")

	auxiliary = set("be", "have", "do")

	// inverters put the subject after the verb: "nor did he", "and so was she".
	inverters = set("nor", "so", "neither", "only", "never", "scarcely", "hardly", "seldom", "little")

	// givers take two objects.
	givers = set("give", "tell", "show", "bring", "send", "offer", "teach", "hand", "lend", "pay", "promise", "grant",
		"ask", "sell", "throw", "tie", "owe", "fetch", "buy", "cook", "read", "sing", "wish", "leave", "cost", "make",
		"find", "do", "call", "deny", "refuse", "forgive", "spare", "save", "allow", "write", "build", "cut", "pour", "get", "envy")

	// reporting are verbs that report speech or thought.
	reporting = set("say", "cry", "ask", "answer", "reply", "call", "shout", "exclaim", "whisper", "scream", "sob",
		"sigh", "think", "mutter", "murmur", "growl", "roar", "beg", "laugh", "continue", "add", "repeat", "return",
		"inquire", "enquire", "demand", "declare", "ejaculate", "shriek", "yell", "gasp", "groan", "moan", "grumble",
		"snap", "snarl", "squeak", "squeal", "bark", "croak", "quoth", "remark", "observe", "plead", "implore",
		"wail", "whimper", "weep", "retort", "respond", "rejoin", "interrupt", "stammer", "breathe", "speak",
		"wonder", "bellow", "hiss", "howl", "chirp", "pipe", "command", "order", "warn", "explain", "sing", "tell",
		"complain", "agree", "go", "pray", "urge", "entreat", "suggest", "protest", "scold", "chuckle", "giggle",
		"quack", "crow", "mew", "coo", "bleat", "lament", "announce", "promise", "put", "begin", "resume", "smile", "grin")

	// appearing are verbs whose subject may follow them after a place or "there".
	appearing = set("be", "come", "live", "stand", "sit", "lie", "go", "run", "fall", "appear", "rise", "hang", "dwell",
		"follow", "begin", "end", "arise", "grow", "remain", "walk", "fly", "pass", "happen", "exist", "reign", "lay",
		"spring", "burst", "hop", "leap", "jump", "step", "ride", "rush", "creep", "sleep", "shine", "flow", "swim", "stream", "echo", "loom", "gleam", "peep", "crawl", "drop", "roll", "march", "trot",
		"stretch", "lurk", "crouch", "kneel", "float", "emerge", "enter", "issue", "ring", "sound", "blow", "gather")

	// clauseTakers are verbs after which a clause may follow without "that".
	clauseTakers = set("say", "think", "know", "see", "hope", "wish", "believe", "feel", "find", "hear", "tell", "suppose",
		"fear", "swear", "declare", "guess", "mean", "understand", "imagine", "dream", "be", "seem", "promise", "wonder", "trust")

	// starters are prepositions that may also open a clause; the rest is told
	// apart by what follows.
	subordinators = set("because", "if", "while", "though", "although", "unless", "lest", "that", "whether", "whilst",
		"wherever", "whenever", "when", "where", "how", "why", "as", "after", "before", "since", "until", "till", "for",
		"than", "like", "but", "once", "except", "so", "ere", "whereupon", "albeit")
	alwaysClause = set("because", "if", "while", "though", "although", "unless", "lest", "whether", "whilst", "that")
	// eitherWay are as often prepositions.
	eitherWay = set("for", "after", "before", "since", "as", "than", "but", "like", "until", "till")
	// naming are verbs whose passive takes a predicate: "was made king".
	naming = set("make", "call", "name", "crown", "appoint", "elect", "deem", "christen", "declare", "proclaim")

	// predicative are words that are predicates whatever their tag.
	predicative = set("afraid", "alone", "asleep", "awake", "alive", "aware", "ashamed", "aghast", "ill", "sick", "glad",
		"angry", "sorry", "wroth", "afeard", "affrighted", "faint", "weary", "cold", "hot", "warm", "dumb", "mute",
		"silent", "still", "red", "white", "pale", "crimson", "scarlet", "purple", "green", "mad", "loath", "athirst", "merry", "worth", "safe", "sad", "happy")

	// measures are adjectives that stand before another as adverbs do.
	measures = set("much", "little", "far", "sore", "full", "right", "dreadful", "mighty", "passing", "wondrous", "exceeding",
		"half", "dead", "bitter", "stark", "more", "most", "precious", "terrible", "real", "less")

	// perfectWithBe are verbs of motion: "he was gone", "she is come".
	perfectWithBe = set("go", "come", "arrive", "become", "depart", "return", "fall", "grow", "rise", "vanish", "die", "flee", "fly")

	// bases are base forms that look like the past; after a modal they are bases.
	bases = set("put", "set", "let", "cut", "hit", "hurt", "shut", "cast", "burst", "cost", "read", "spread", "bid", "rid", "come", "run", "become")

	// atTimes follow "at" and say when.
	atTimes = set("length", "last", "first", "once", "least", "most", "all", "present", "times")

	// inManners follow "in" and say how.
	inManners = set("vain", "short", "general", "particular", "secret")

	// lingering are verbs of place and motion: who sits by the fire weeping is
	// the one who sits.
	lingering = set("sit", "stand", "lie", "come", "go", "run", "walk", "fly", "lay", "kneel", "wait", "wander", "remain", "stay",
		"ride", "creep", "hurry", "rush", "hide", "crouch", "lean", "stop", "return", "hasten", "leap", "fall", "keep", "live", "be")

	nominative = set("he", "she", "they", "we", "i", "thou", "ye")
	nothings   = set("nothing", "none", "nobody", "naught", "nought", "neither")
)
