package species
import ("testing";"fmt")
func TestTry(t *testing.T){
 tb,err:=Default(); if err!=nil{t.Fatal(err)}
 for _,q:=range []string{"sugar maple","Maple, sugar","maple-sugar","maple","hard maple","sapelle","sugar mapel","rosewod","red cedar","western red cedar","redwood","Gonçalo","cocobollo","walnut","engleman","honduras mahogany","pernambuco","douglas fir","yellowpoplar","oka","oak","spruce","tonewood","Picea","bubingo","Picea sitchensis","picea abeis", "sitka"}{
  fmt.Printf("%-20s",q); for _,m:=range tb.Find(q,5){fmt.Printf(" %s(%s,%s,%d)",m.Wood.ID,m.Kind,m.Name,m.Slips)}; fmt.Println("  | suggest", tb.Suggest(q,3))
 }
 for _,q:=range []string{"Portland","portland oregon","new york","zurich","Zürich","Milan","denmark","Madisson","sault ste marie","o'hare","st louis","chigaco","harrisburg","washington dc","minnesota"}{
  fmt.Printf("%-20s",q); for _,m:=range tb.FindStations(q,5){fmt.Printf(" %s(%s,%d)",m.Station.ID,m.Kind,m.Slips)}; fmt.Println("  | ", tb.SuggestStations(q,3))
 }
 n,_:=tb.NearestStations(51.5,-0.1,3); for _,s:=range n{fmt.Println(s.Station.ID,s.Distance)}
 fmt.Println(tb.DataVersion(), len(tb.woodIndex.names))
}
func BenchmarkTryNear(b *testing.B){tb,_:=Default(); for b.Loop(){tb.Find("engleman sprucce",10)}}
func BenchmarkTryOne(b *testing.B){tb,_:=Default(); for b.Loop(){tb.Find("maple",10)}}
func BenchmarkTryLoad(b *testing.B){for b.Loop(){Load()}}
