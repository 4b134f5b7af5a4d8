package tag

// The lists below are own judgement from grammar and from reading old
// storybooks; no source.

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// oldWords have one tag in stories, whatever the weights say.
var oldWords = map[string]string{
	"thou": "PRP", "thee": "PRP", "ye": "PRP", "thy": "PRP$", "thine": "PRP$", "'t": "PRP", "'em": "PRP",
	"thyself": "PRP", "himself": "PRP", "herself": "PRP", "hath": "VBZ", "doth": "VBZ", "quoth": "VBD", "methinks": "VBP",
	"methought": "VBD", "durst": "VBD", "hadst": "VBD", "didst": "VBD", "couldst": "MD", "wouldst": "MD",
	"shouldst": "MD", "mayst": "MD", "canst": "MD", "shalt": "MD", "wilt": "MD", "dost": "VBP", "hast": "VBP", "mightst": "MD",
	"'rt": "VBP", "'lt": "MD", "'st": "VBP", "n't": "RB", "not": "RB", "never": "RB",
	"alas": "UH", "nay": "UH", "yea": "UH", "lo": "UH", "hark": "UH", "ho": "UH", "fie": "UH", "oh": "UH", "ah": "UH",
	"o": "UH", "hurrah": "UH", "hush": "UH", "ugh": "UH", "ha": "UH", "aha": "UH", "alack": "UH", "ay": "UH", "aye": "UH", "yes": "UH",
	"afraid": "JJ", "ashamed": "JJ", "asleep": "JJ", "alive": "JJ", "aghast": "JJ", "afeard": "JJ", "affrighted": "JJ",
	"wroth": "JJ", "loath": "JJ", "loth": "JJ", "athirst": "JJ", "woebegone": "JJ", "forlorn": "JJ", "wearied": "JJ",
	"whence": "WRB", "whither": "WRB", "wherefore": "WRB", "hither": "RB", "thither": "RB", "yonder": "RB",
	"aloud": "RB", "perchance": "RB", "anon": "RB", "forthwith": "RB", "betwixt": "IN", "unto": "IN", "amid": "IN", "amidst": "IN",
	"ere": "IN", "aught": "NN", "naught": "NN", "nought": "NN", "till": "IN", "until": "IN", "and": "CC", "an'": "CC", "o'": "IN", "th'": "DT",
	"forth": "RB", "beforehand": "RB", "everywhere": "RB", "nowhere": "RB", "somewhere": "RB", "anywhere": "RB",
	"hundred": "CD", "thousand": "CD", "wretched": "JJ", "wicked": "JJ", "sacred": "JJ", "naked": "JJ", "ragged": "JJ",
	"kindred": "NN", "cunning": "JJ", "notwithstanding": "IN", "yours": "PRP", "hers": "PRP", "ours": "PRP", "theirs": "PRP",
	"besides": "RB", "downstairs": "RB", "upstairs": "RB", "sideways": "RB", "betimes": "RB", "onwards": "RB", "inwards": "RB",
	"fro": "RB", "therefore": "RB", "ago": "RB",
	"whoever": "WP", "whosoever": "WP", "wherever": "WRB", "whenever": "WRB", "whilst": "IN", "lest": "IN",
	"thereupon": "RB", "whereupon": "IN", "underneath": "IN", "amongst": "IN", "among": "IN", "into": "IN", "onto": "IN",
	"throughout": "IN", "against": "IN", "between": "IN", "beside": "IN", "o'clock": "RB", "o'er": "IN", "e'er": "RB", "ne'er": "RB",
	"wo": "MD", "ca": "MD", "sha": "MD",
	"hence": "RB", "thence": "RB", "headlong": "RB", "upwards": "RB", "downwards": "RB", "backwards": "RB", "forwards": "RB",
	"homewards": "RB", "homeward": "RB", "afterwards": "RB", "sooner": "RBR", "towards": "IN", "toward": "IN", "myself": "PRP",
	"yourself": "PRP", "itself": "PRP", "ourselves": "PRP", "yourselves": "PRP", "themselves": "PRP", "am": "VBP", "is": "VBZ",
	"are": "VBP", "was": "VBD", "were": "VBD", "has": "VBZ", "does": "VBZ", "did": "VBD",
	"which": "WDT", "how": "WRB", "where": "WRB", "why": "WRB", "when": "WRB", "upon": "IN", "who": "WP", "whom": "WP", "whose": "WP$", "he": "PRP", "she": "PRP", "they": "PRP", "i": "PRP",
}

// oldAfterThou are nouns and other words that are verbs beside "thou".
var oldAfterThou = map[string]string{"art": "VBP", "wert": "VBD", "wast": "VBD"}

// auxiliaries are always verbs.
var auxiliaries = map[string]string{"was": "VBD", "were": "VBD", "is": "VBZ", "are": "VBP", "am": "VBP", "be": "VB",
	"been": "VBN", "being": "VBG", "has": "VBZ", "had": "VBD", "have": "VBP", "did": "VBD", "does": "VBZ", "do": "VBP"}

// closedTags are tags whose words can be listed; the weights give them to
// words they never met.
var closedTags = map[string]map[string]bool{
	"PDT": set("all", "both", "half", "such", "quite", "many", "what", "rather", "nary", "a"),
	"DT": set("a", "an", "the", "this", "that", "these", "those", "all", "both", "each", "every", "some", "any", "no", "none",
		"another", "either", "neither", "half", "such", "th'", "t'", "th", "de", "dis", "dat", "many", "much", "what", "which", "them", "yon", "yonder"),
	"MD": set("can", "could", "may", "might", "must", "shall", "should", "will", "would", "ought", "'ll", "'d", "ca", "wo", "sha",
		"need", "dare", "dares", "'lt", "canst", "couldst", "mayst", "mightst", "shalt", "shouldst", "wilt", "wouldst", "used", "durst"),
	"PRP$": set("my", "your", "his", "her", "its", "our", "their", "thy", "thine", "mine", "yer", "me", "whose"),
	"WP$":  set("whose"),
	"EX":   set("there", "thar"),
	"TO":   set("to", "na", "ta"),
}

var (
	nominatives = set("he", "she", "they", "we", "i", "thou", "ye", "who")
	singular    = set("he", "she", "it", "who", "nobody", "everybody")
	objects     = set("him", "her", "them", "me", "us", "thee", "it", "you", "himself", "herself")

	is   = set("am", "is", "are", "was", "were", "be", "been", "being", "'m", "'re", "art", "wert", "wast")
	has  = set("have", "has", "had", "having", "'ve", "hath", "hast", "hadst")
	does = set("do", "does", "did", "doth", "dost", "didst")
	// seems are forms of verbs that take an adjective.
	seems = set("am", "is", "are", "was", "were", "be", "been", "being", "'m", "'re", "'s", "art", "feel", "feels", "felt", "feeling",
		"look", "looks", "looked", "looking", "seem", "seems", "seemed", "grow", "grows", "grew", "grown", "growing", "turn",
		"turns", "turned", "turning", "become", "becomes", "became", "becoming", "get", "gets", "got", "getting", "went", "go",
		"remained", "stayed", "kept", "stood", "lay", "sat", "fell", "waxed", "appeared", "sounded")
	perceives = set("saw", "see", "seen", "seeing", "heard", "hear", "hearing", "found", "find", "finding", "felt", "watched",
		"watching", "noticed", "left", "leaving", "kept", "caught", "set", "sent", "beheld", "behold", "observed")
	causes = set("make", "makes", "made", "making", "let", "lets", "letting", "saw", "see", "sees", "seen", "seeing", "hear",
		"heard", "hears", "hearing", "felt", "feel", "watch", "watched", "watching", "bid", "bade", "help", "helped")

	loneDeterminers = set("that", "this", "these", "those", "all", "both", "each", "some", "any", "none", "either", "neither")

	// notVerbs look like irregular past forms but are often nouns or
	// adjectives, so that the weights know better.
	notVerbs = set("thought", "left", "felt", "found", "ground", "wound", "saw", "rose", "bore", "bit", "shot", "stole", "dove",
		"bound", "cut", "hit", "set", "put", "hurt", "cast", "cost", "let", "spread", "burst", "split", "shut", "thrust",
		"quit", "bid", "read", "rid", "art", "ware", "tare", "bare", "brake", "writ", "kist", "tost", "don", "worst", "ca", "wo", "'s", "'d",
		"gat", "bet", "wet", "knit", "lost", "drunk", "meant", "lit", "drove", "stove", "lain", "cleft", "sate", "clove", "born", "worn",
		"laden", "molten", "graven", "sunken", "drunken", "clad", "'re", "'m", "'ve", "gi'", "rapt", "blent", "drest", "vext", "past", "fell", "lay")
	// placeWords are prepositions where a noun follows.
	placeWords = set("before", "after", "over", "around", "about", "by", "near", "behind", "beneath", "below", "above", "under",
		"within", "without", "along", "across", "past", "round", "beside", "beyond", "inside", "outside", "opposite", "like", "through", "in", "on", "off")
	// lyAdjectives end like adverbs.
	lyAdjectives = set("comely", "lovely", "lonely", "friendly", "ugly", "silly", "holy", "lively", "lowly", "homely", "manly",
		"kingly", "princely", "goodly", "courtly", "stately", "ghastly", "ghostly", "deadly", "cowardly", "elderly", "heavenly",
		"worldly", "earthly", "curly", "burly", "surly", "wily", "jolly", "chilly", "hilly", "unruly", "beastly", "orderly",
		"saintly", "sickly", "timely", "costly", "fatherly", "motherly", "brotherly", "womanly", "queenly", "unsightly", "unearthly")
	// saidVerbs are past forms that are nouns too; before "it" or "the" they are verbs.
	saidVerbs = set("saw", "felt", "left", "found", "rose", "bore", "shot", "spoke", "thought", "bit", "struck", "stole", "bound")
	dares     = set("dare", "dares", "dared", "durst")
	// adverbs are the common ones that do not end in -ly.
	adverbs = set("then", "now", "here", "there", "soon", "never", "once", "ever", "always", "still", "just", "only", "even", "again",
		"away", "down", "up", "out", "back", "perhaps", "however", "meanwhile", "thus", "so", "yet", "also", "too", "almost", "quite",
		"rather", "very", "often", "seldom", "sometimes", "long", "far", "well", "indeed", "instead", "therefore", "moreover",
		"besides", "today", "tomorrow", "yesterday", "to-day", "to-morrow", "to-night", "afterwards", "afterward", "hence", "thence",
		"nevertheless", "somehow", "somewhat", "maybe", "else", "alone", "together", "home", "inside", "outside", "not", "no",
		"first", "next", "last", "twice", "thrice", "little", "much", "more", "most", "less", "least", "better", "best", "enough",
		"forth", "hither", "thither", "yonder", "anon", "nay", "aye", "oft", "ere", "hereupon", "thereupon", "nowhere", "everywhere",
		"somewhere", "anywhere", "meantime", "forever", "evermore", "altogether", "already", "before", "after", "behind", "above",
		"below", "near", "off", "on", "in", "over", "by", "thereby", "therein", "thereof", "thereafter", "henceforth", "perchance",
		"likewise", "otherwise", "withal", "straightway", "straight", "fast", "hard", "high", "low", "late", "early", "right", "forthwith", "n't", "neither", "either", "nor", "as", "how", "all", "half", "not", "sure", "doubtless", "nonetheless", "notwithstanding", "apart", "aside", "abroad", "aboard", "ashore", "asleep", "alike", "anyway", "anyhow", "erewhile", "whence")
	// joiners are the coordinating conjunctions.
	joiners   = set("and", "or", "but", "nor", "&", "yet", "so", "plus", "either", "neither", "both", "an'", "n'", "'n", "for", "et")
	particles = set("up", "down", "out", "away", "off", "back", "over", "in", "on")
	// sameAsBase are participles and past forms that are bases too.
	sameAsBase = set("come", "become", "run", "overcome", "put", "set", "let", "cut", "hit", "hurt", "shut", "cast", "burst",
		"spread", "read", "bid", "rid", "split", "thrust", "cost")
	// pastAsBase are those whose past form is the base.
	pastAsBase = set("put", "set", "let", "cut", "hit", "hurt", "shut", "cast", "burst", "spread", "read", "bid", "rid", "split",
		"thrust", "knit", "wet", "beat", "shed", "slit", "spit")
	// pastOnly are past forms that are no participles.
	pastOnly = set("went", "saw", "did", "was", "were", "gave", "took", "came", "ran", "began", "knew", "grew", "threw", "blew",
		"flew", "drew", "ate", "fell", "rose", "drove", "rode", "wrote", "spoke", "broke", "woke", "chose", "froze", "stole", "swore",
		"tore", "wore", "bore", "shook", "forsook", "sang", "rang", "sprang", "sank", "drank", "shrank", "swam", "lay", "bade",
		"forgave", "forgot", "became", "overcame", "hid", "bit", "smote", "strode", "trod", "slew", "arose", "spake", "sware", "crept")
	// participleOnly are participles that are no past forms.
	participleOnly = set("been", "done", "gone", "seen", "taken", "given", "known", "grown", "thrown", "blown", "flown", "drawn",
		"eaten", "fallen", "risen", "driven", "ridden", "written", "spoken", "broken", "woken", "chosen", "frozen", "stolen",
		"sworn", "torn", "worn", "borne", "shaken", "forsaken", "sung", "sprung", "drunk", "swum", "lain", "bidden", "forgiven",
		"forgotten", "hidden", "bitten", "smitten", "stricken", "stridden", "trodden", "slain", "arisen", "beaten", "mistaken",
		"shown", "sewn", "sown", "mown", "hewn", "swollen", "gotten", "woven", "begun", "shorn", "undone", "holden", "beholden")

	baseOnIng = set("sing", "bring", "ring", "fling", "cling", "swing", "sting", "spring", "wring", "string", "sling", "ping", "wing", "king")
	// plainIngNouns are never participles.
	plainIngNouns = set("evening", "morning", "thing", "nothing", "something", "anything", "everything", "darling", "ceiling",
		"shilling", "farthing", "duckling", "gosling", "herring", "pudding", "lightning", "offspring", "sibling")
	ingNouns = set("thing", "nothing", "anything", "something", "everything", "king", "ring", "string", "spring", "morning",
		"evening", "wing", "building", "wedding", "clothing", "lightning", "pudding", "ceiling", "farthing", "shilling", "darling",
		"duckling", "gosling", "sibling", "stocking", "offspring", "cunning", "during", "according", "willing", "sterling", "herring",
		"covering", "bedding", "railing", "lining", "being", "meaning", "feeling", "blessing", "warning", "beginning", "dwelling",
		"opening", "landing", "painting", "drawing", "gathering", "christening", "greeting", "saying", "lodging", "earring", "outing")
)
