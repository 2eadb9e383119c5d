using System.Globalization;
using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Html;

namespace Portwitness.Reports.Tests;

/// <summary>Drawings of what has no height or no width: every place is a number within the frame.</summary>
public sealed class PlotTests
{
    public static TheoryData<string, PowerObject, int?> Offers => new()
    {
        { "5 V 0 A", new() { Fixed = new() { VoltageMv = 5_000, MaxCurrentMa = 0 } }, null },
        { "a watt of 0 W", new() { Fixed = new() { VoltageMv = 5_000, MaxCurrentMa = 0 } }, 0 },
        { "PPS of 0 A from 0 V", new() { Pps = new() { MinVoltageMv = 0, MaxVoltageMv = 11_000, MaxCurrentMa = 0 } }, null },
        { "PPS from 0 V", new() { Pps = new() { MinVoltageMv = 0, MaxVoltageMv = 11_000, MaxCurrentMa = 3_000 } }, 27_000 },
        { "limited PPS from 0 V", new() { Pps = new() { MinVoltageMv = 0, MaxVoltageMv = 11_000, MaxCurrentMa = 3_000, PowerLimited = true } }, 27_000 },
        { "variable from 0 V", new() { Variable = new() { MinVoltageMv = 0, MaxVoltageMv = 5_000, MaxCurrentMa = 0 } }, null },
        { "battery of 0 W", new() { Battery = new() { MinVoltageMv = 50, MaxVoltageMv = 100, MaxPowerMw = 0 } }, null },
        { "AVS of 0 A", new() { SprAvs = new() { MaxCurrent15VMa = 0, MaxCurrent20VMa = 0 } }, null },
        { "EPR AVS of 0 W", new() { EprAvs = new() { MinVoltageMv = 15_000, MaxVoltageMv = 28_000, PdpW = 0 } }, null },
    };

    [Theory]
    [MemberData(nameof(Offers))]
    public void Envelope_OfWhateverIsOffered(string name, PowerObject offered, int? pdp)
    {
        Advertisement list = new() { Objects = { offered } };
        if (pdp is { } milliwatts)
        {
            list.PdpMw = milliwatts;
        }

        Check(EnvelopePlot.Of(list, null, name, "e1")!);
    }

    [Theory]
    [InlineData(0, 0, 0, 0)]
    [InlineData(0, 0, -3, -1)]
    [InlineData(-5, -5, -3, 3)]
    [InlineData(-5, 0, 0, 0)]
    [InlineData(1, 1, 1, 1)]
    public void Trace_OfWhateverIsMeasured(int leastMv, int mostMv, int leastMa, int mostMa)
    {
        PowerLog log = new() { File = "log.csv" };
        log.Trace.AddRange(Enumerable.Range(0, 3).Select(at => new TraceSpan
        {
            FromUs = at, ToUs = at + 1, LeastMv = leastMv, MostMv = mostMv, LeastMa = leastMa, MostMa = mostMa,
        }));

        Check(TracePlot.Of(log, "t1")!);
    }

    private static void Check(XElement figure)
    {
        foreach (XAttribute place in figure.DescendantsAndSelf().Attributes().Where(one => one.Name.LocalName is "x" or "y" or "x1" or "x2" or "y1" or "y2" or "cx" or "cy"))
        {
            decimal.Parse(place.Value, CultureInfo.InvariantCulture).Should().BeInRange(-1, 2_000);
        }

        figure.Descendants().Where(one => one.Name.LocalName is "path" or "circle").Should().NotBeEmpty();
    }
}
