package segment

// The lists below are own judgement from common English typography; no source.

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

var (
	// titles are abbreviations that never end a sentence: a name follows.
	titles = set("Mr", "Mrs", "Ms", "Dr", "St", "Messrs", "Mme", "Mlle", "Prof", "Rev", "Revd", "Hon",
		"Capt", "Col", "Gen", "Lt", "Lieut", "Sgt", "Gov", "Mt", "Ft", "MR", "MRS", "DR", "ST", "cf", "viz", "vs")
	// endings are abbreviations that may end a sentence.
	endings = set("etc", "Esq", "Jr", "Sr", "Co", "Inc", "Ltd", "Bros", "Jan", "Feb", "Aug", "Sept", "Oct", "Nov", "Dec")
	// numbered are abbreviations only before a number: "No. 7", but "No."
	numbered = set("No", "no", "Nos", "Vol", "vol", "Chap", "chap", "Ch", "p", "pp", "Fig", "fig")

	// clippedWords are written with an apostrophe for a lost end.
	clippedWords = set("o", "th", "an", "wi", "ol", "fo", "lil", "po", "mo", "d", "t", "ha", "hae", "gi", "tha",
		"goin", "doin", "bein", "doan", "mus", "jus", "mos", "las", "nex", "tole", "den")
	// endsInIn are words that end in -in without having lost a g.
	endsInIn = set("again", "within", "begin", "certain", "mountain", "captain", "fountain", "cousin", "robin",
		"goblin", "cabin", "villain", "curtain", "basin", "pumpkin", "penguin", "dolphin", "bargain", "napkin",
		"satin", "coffin", "violin", "margin", "chaplain", "chieftain", "dauphin", "remain", "contain", "explain",
		"complain", "refrain", "grain", "chain", "brain", "stain", "train", "twain", "plain", "spain", "drain",
		"ruin", "origin", "muffin", "raisin", "resin", "elfin", "lambkin", "manikin", "catkin", "urchin", "assassin")
	// elidedWords are written with an apostrophe for a lost beginning.
	elidedWords = set("em", "tis", "tisn't", "twasn't", "gainst", "neath", "mongst", "mid", "bout", "cause", "cos",
		"coz", "til", "till", "prentice", "un", "uns", "fraid", "ere", "er", "im", "round", "nother", "nuff",
		"specially", "scuse", "possum", "lection", "member", "fore", "twixt", "tween", "ware", "pon", "zactly",
		"spose", "spect", "deed", "twon't", "s", "ud", "ull", "ee")
	// afterIt are the verbs that 't (it) is written together with.
	afterIt = set("is", "was", "were", "will", "would", "ain't", "isn't", "wasn't", "weren't", "wouldn't", "has", "had")
	// fused are pairs written as one word, with the place of the cut.
	fused = map[string]int{"cannot": 3, "gonna": 3, "gotta": 3, "wanna": 3, "gimme": 3, "lemme": 3,
		"tis": 1, "twas": 1, "twere": 1, "twill": 1, "twould": 1}

	// reporting are the verbs of reporting clauses.
	reporting = set("said", "says", "say", "cried", "asked", "answered", "replied", "called", "shouted",
		"exclaimed", "whispered", "screamed", "sobbed", "sighed", "thought", "muttered", "murmured", "growled",
		"roared", "begged", "laughed", "continued", "added", "repeated", "returned", "inquired", "enquired",
		"demanded", "declared", "ejaculated", "shrieked", "yelled", "gasped", "groaned", "moaned", "grumbled",
		"snapped", "snarled", "squeaked", "squealed", "barked", "croaked", "quoth", "remarked", "observed",
		"pleaded", "implored", "wailed", "whimpered", "wept", "retorted", "responded", "rejoined", "interrupted",
		"stammered", "breathed", "spoke", "wondered", "bellowed", "hissed", "howled", "chirped", "piped")
	// notNames start sentences, not names.
	notNames = set("the", "a", "an", "he", "she", "it", "they", "we", "you", "i", "this", "that", "these", "those",
		"his", "her", "their", "its", "my", "our", "your", "then", "but", "and", "so", "or", "for", "when", "as",
		"at", "in", "on", "to", "with", "now", "there", "here", "what", "who", "how", "why", "where", "no", "yes",
		"not", "if", "one", "all", "after", "before", "while", "once", "thus", "upon", "by", "from", "oh", "ah",
		"let", "do", "did", "some", "every", "each", "both", "nobody", "everybody", "someone")
)
