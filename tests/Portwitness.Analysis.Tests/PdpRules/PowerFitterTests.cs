using CsCheck;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Tests.PdpRules;

/// <summary>The PDP that a list agrees with.</summary>
public class PowerFitterTests
{
    // Computed from R3.2v1.1 Table 10.2: the lists of common ratings, rounded down.
    [Theory]
    [InlineData(12, "5/2400")]
    [InlineData(18, "5/3000 9/2000")]
    [InlineData(20, "5/3000 9/2220")]
    [InlineData(27, "5/3000 9/3000")]
    [InlineData(30, "5/3000 9/3000 15/2000")]
    [InlineData(45, "5/3000 9/3000 15/3000")]
    [InlineData(60, "5/3000 9/3000 15/3000 20/3000")]
    [InlineData(65, "5/3000 9/3000 15/3000 20/3250")]
    [InlineData(100, "5/3000 9/3000 15/3000 20/5000")]
    public void CompliantList_ShowsItsRating(int watts, string list)
    {
        PowerFit fit = PowerFitter.Fit(List(list), SourceEvidence.None);
        (fit.PdpMilliwatts, fit.Basis, fit.Breaches).Should().Be((watts * 1000, PdpBasis.Derived, null));
    }

    // R3.2v1.1 10.2: every whole watt, PDP / V rounded down and up, never accused.
    [Fact]
    public void CompliantSources_AreNeverAccused()
    {
        int cases = 0;
        for (int watts = 1; watts <= 100; watts++)
        {
            foreach (bool up in new[] { false, true })
            {
                OfferedObject[] list = Compliant(watts * 1000, up);
                SourceEvidence printed = new() { Pdp = Power.FromMilliwatts(watts * 1000), PdpBasis = PdpBasis.Printed };
                foreach (SourceEvidence evidence in new[] { SourceEvidence.None, printed })
                {
                    PowerFit fit = PowerFitter.Fit(list, evidence with { Sharing = PowerSharing.None });
                    fit.Breaches.Should().BeNull($"{watts} W, rounded {(up ? "up" : "down")}, {fit}");
                    cases++;
                }
            }
        }

        cases.Should().Be(400);
    }

    // A list that some PDP of a milliwatt grid satisfies is never accused: the search misses none.
    [Fact]
    public void AnyPdpThatSatisfiesAList_IsFound()
    {
        Gen.Select(Gen.Int[100, 100_000], Gen.Bool, Gen.Int[0, 3]).Sample((pdp, up, extra) =>
        {
            List<OfferedObject> list = [.. Compliant(pdp, up)];
            if (extra > 0)
            {
                int volts = 5000 + (extra * 1000);
                list.Insert(1, Offer(2, volts, Math.Min(PowerRules.RoundUp(pdp, volts), 5000)));
            }

            PowerFitter.Fit([.. list], SourceEvidence.None with { Sharing = PowerSharing.None }).Breaches
                .Should().BeNull($"{pdp} mW rounded {(up ? "up" : "down")}");
        });
    }

    [Fact]
    public void ListOfNoPdp_IsJudgedByTheNearest()
    {
        PowerFit fit = PowerFitter.Fit(List("5/3000 9/2000 15/3000 20/3250"), SourceEvidence.None);
        fit.PdpMilliwatts.Should().Be(65_000);
        fit.Breaches.Should().ContainSingle()
            .Which.Should().Be(new PowerBreach(PowerBreachKind.CurrentTooLow, 2, 9000, 3000, 2000, false));
    }

    // What an expert would say of lists that no rating explains: the rating nearest to the largest power (common practice, no source);
    // only a rating with half the breaches or fewer goes before it.
    [Theory]
    [InlineData(30, "5/2400 14800/2000")]
    [InlineData(18, "5/1500 15/1200")]
    [InlineData(60, "5/2000 12/3000 20/3000")]
    [InlineData(60, "5/3000 9/3000 20/3000")]
    [InlineData(65, "5/3000 15/3000 20/3250")]
    [InlineData(20, "5/3000 8/4000 9/2220")]
    [InlineData(20, "5/3000 9/2220 12/3000")]
    [InlineData(45, "5/2000 9/3000 15/3000")]
    [InlineData(100, "5/3000 9/3000 20/5000")]
    [InlineData(27, "5/2000 9/3000")]
    public void ListOfNoRating_IsNamedAsAnExpertWould(int watts, string list)
    {
        PowerFit fit = PowerFitter.Fit(List(list), new SourceEvidence { Editions = Editions.R3x, Sharing = PowerSharing.None });
        fit.PdpMilliwatts.Should().Be(watts * 1000);
        fit.Breaches.Should().NotBeEmpty();
    }

    // Profiles 2 to 5 of R1.0 (the press of 2012), each at its currents, above and below them.
    [Theory]
    [InlineData("5/2000 12/1500", true)]
    [InlineData("5/2000 12/3000", true)]
    [InlineData("5/2000 12/3000 20/3000", true)]
    [InlineData("5/2000 12/5000 20/5000", true)]
    [InlineData("5/3000 12/3000 20/3000", true)]
    [InlineData("5/3000 12/2000", true)]
    [InlineData("5/2000 12/3000 20/5000", true)]
    [InlineData("5/1990 12/3000 20/3000", false)]
    [InlineData("5/2000 12/1490", false)]
    [InlineData("5/2000 12/2990 20/3000", false)]
    [InlineData("5/2000 12/3000 20/2990", false)]
    [InlineData("5/2000 20/3000", false)]
    [InlineData("5/3000 9/2000 15/3000 20/3250", false)]
    public void ProfilesBeforeThePowerRules_AreNoBreach(string list, bool allowed)
    {
        foreach (Editions old in new[] { Editions.R10, Editions.R20, Editions.All })
        {
            PowerFit fit = PowerFitter.Fit(List(list), new SourceEvidence { Editions = old, Sharing = PowerSharing.None });
            (fit.Breaches is null).Should().Be(allowed, $"{old}: {fit}");
        }

        PowerFitter.Fit(List(list), new SourceEvidence { Editions = Editions.R3x, Sharing = PowerSharing.None })
            .Breaches.Should().NotBeEmpty("R3.0 has power rules");
    }

    [Fact]
    public void EmptyList_HasNoPdp() => PowerFitter.Fit([], SourceEvidence.None).PdpMilliwatts.Should().Be(0);

    [Fact]
    public void RandomObjects_NeverThrow() => Gen.UInt.Array[0, 13].Sample(words =>
        PowerFitter.Fit(
            [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))], SourceEvidence.None));

    private static OfferedObject[] Compliant(int milliwatts, bool up)
    {
        List<OfferedObject> list = [];
        foreach (int volts in PowerRules.NormativeMillivolts)
        {
            if (milliwatts > PowerRules.NormativeAbove(volts))
            {
                int exact = up ? PowerRules.RoundUp(milliwatts, volts) : PowerRules.RoundDown(milliwatts, volts);
                list.Add(Offer(list.Count + 1, volts, volts == 20000 ? exact : Math.Min(exact, 3000)));
            }
        }

        return [.. list];
    }

    private static OfferedObject[] List(string text) =>
    [
        .. text.Split(' ').Select((entry, index) =>
        {
            int[] parts = [.. entry.Split('/').Select(int.Parse)];
            return Offer(index + 1, parts[0] < 1000 ? parts[0] * 1000 : parts[0], parts[1]);
        }),
    ];

    private static OfferedObject Offer(int position, int millivolts, int milliamperes) => new(
        position,
        FixedSourceSupply.Create(Voltage.FromMillivolts(millivolts), Current.FromMilliamperes(milliamperes)).Raw,
        uint.MaxValue);
}
