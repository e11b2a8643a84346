package draftwitness.diagnosis;
import draftwitness.cycle.*;
import draftwitness.reading.Channel;
import draftwitness.setup.Setup;
import java.util.List;
public final class EvidenceDump {
  public static String of(List<Channel> ch, Setup setup, CycleReport r) {
    StringBuilder b = new StringBuilder();
    for (var e : new EvidenceFinder(ch, setup, r).find()) b.append("   ").append(e.kind()).append('=').append(e.outcome()).append(": ").append(e.text()).append('\n');
    var d = Diagnosis.of(ch, setup, r, List.of());
    for (int i=0;i<4;i++) b.append(String.format("     %s %.3f%n", d.causes().get(i).cause().id(), d.causes().get(i).probability()));
    return b.toString();
  }
}
