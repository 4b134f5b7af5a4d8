package clauses
import ("testing";"os";"fmt")
func TestDbg(t *testing.T){
 if os.Getenv("T")=="" {t.Skip()}
 d:=parse(t,os.Getenv("T")); fmt.Println(tags(d)); for i:=range d.Phrases{fmt.Printf("[%s] ",PhraseText(d,i))}; fmt.Println(); fmt.Println(Describe(d))}
