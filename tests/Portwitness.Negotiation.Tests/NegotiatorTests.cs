using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Negotiation.Tests;

/// <summary>
/// Choices of described devices. Lists are words of shared/vectors; expected words were put together by hand from R3.2v1.1, Tables 6.23
/// to 6.26.
/// </summary>
public class NegotiatorTests
{
    private const string Sixty5 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";
    private const string Twenty = "0x0801912C 0x0002D0DE";
    private const string Sixty = "0x0801912C 0x0002D12C 0x0004B12C 0x0006412C";
    private const string Pps25 = "0x0801912C 0x0002D12C 0xC0DC323C";
    private const string Epr140 = "0x0881912C 0x0002D12C 0x0004B12C 0x000641F4 0xE004B1F4 0x00000000 0x00000000 0x0008C1F4 0xD230968C";

    [Theory]
    // 45 W of a 65 W source: the lowest voltage that gives them.
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 45W", "most-power", 0x3004B12Cu, 45_000)]
    // 45 W / 20 V is 2.25 A.
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 45W", "high-voltage", 0x400384E1u, 45_000)]
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 45W; minimum 20W", "low-voltage", 0x2004B12Cu, 27_000)]
    // 2.22 A at 9 V are 19.98 W: all of 20 W that steps of 10 mA allow.
    [InlineData(Twenty, "fixed 5V,9V; wish 20W", "most-power", 0x200378DEu, 19_980)]
    // The device wants more: Capability Mismatch, bit 26.
    [InlineData(Twenty, "fixed 5V,9V; wish 25W", "most-power", 0x240378DEu, 19_980)]
    // 3 A of PPS at 8.32 V, 25 W / 3 A down to 20 mV: 416 steps of 20 mV, 60 of 50 mA.
    [InlineData(Pps25, "fixed 5V,9V 2A; pps 3.3-11V 3A; wish 25W", "most-power", 0x3003403Cu, 24_960)]
    [InlineData(Pps25, "fixed 5V,9V 2A; pps 3.3-11V 3A; wish 25W; minimum 5W", "fixed-first", 0x200320C8u, 18_000)]
    [InlineData(Pps25, "fixed 5V,9V; pps 3.3-11V 3A; wish 25W", "adjustable-first", 0x3003403Cu, 24_960)]
    // Over a 3 A cable 3.25 A are not drawn.
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 65W", "most-power", 0x4404B12Cu, 60_000)]
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 65W; cable 5A", "most-power", 0x40051545u, 65_000)]
    public void Request_IsTheOneThatThePolicySays(string list, string sink, string policy, uint word, int milliwatts)
    {
        SinkNegotiation negotiation = NegotiationRun.Negotiate(list, sink, SinkPolicy.Find(policy));

        $"0x{negotiation.Best!.Request.Raw:X8}".Should().Be($"0x{word:X8}");
        negotiation.Power.Milliwatts.Should().Be(milliwatts);
    }

    // Lists without a fixed object that is known: SPR AVS, a battery, PPS, a reserved one, an object whose bits were not shown.
    [Theory]
    [InlineData("0x8FC1092B")]
    [InlineData("0x4F019028")]
    [InlineData("0xC0DC323C")]
    [InlineData("0xF0000000")]
    [InlineData("0x00000000")]
    [InlineData("0x0801912C", 0u)]
    public void ListWithoutAKnownFixedObject_IsNegotiatedWithEveryDevice(string list, uint known = uint.MaxValue)
    {
        SourceOffer offer = NegotiationRun.Offer(list) with
        {
            CableMayHideCurrent = true,
            Spr = [.. NegotiationRun.Words(list).Select((word, index) => new OfferedObject(index + 1, word, known))],
        };
        foreach (SinkDescription sink in ShippedSinks.All)
        {
            SinkNegotiation negotiation = Negotiator.Of(offer, sink, SinkPolicy.MostPower);

            negotiation.Uses.Should().HaveCount(offer.Spr.Length);
            if (sink.Cable != CableEvidence.ThreeAmpere)
            {
                negotiation.NextSteps.Should().Contain(step => step.Contains("5 A cable"));
            }
        }
    }

    // R3.2v1.1, 6.4.10.1: an SPR contract comes first. 0x8047D1F4 is the EPR request of the standard's tables, position 8, 5 A.
    [Fact]
    public void EprDevice_BeginsInSprMode()
    {
        IEnumerable<uint> epr = NegotiationRun.Words(Epr140);
        SinkNegotiation negotiation = Negotiator.Of(
            NegotiationRun.Offer(epr.Take(5), epr), NegotiationRun.Sink("fixed 5V,9V,15V,20V,28V; wish 140W; cable EPR; edition R3.1"), SinkPolicy.MostPower);

        $"{negotiation.Start!.Message} 0x{negotiation.Start.Request.Raw:X8}".Should().Be("Request 0x4047D1F4");
        $"{negotiation.Best!.Message} 0x{negotiation.Best.Request.Raw:X8}".Should().Be("EPR_Request 0x8047D1F4");
        negotiation.GetsWish.Should().Be(Verdict.Holds);
    }

    [Theory]
    [InlineData("fixed 5V,9V,15V,20V,28V; wish 140W; cable 5A; edition R3.1", OfferOutcome.Cable)]
    [InlineData("fixed 5V,9V,15V,20V; wish 140W; cable EPR; edition R3.1", OfferOutcome.Mode)]
    [InlineData("fixed 5V,9V,15V,20V,36V; wish 140W; cable EPR; edition R3.1", OfferOutcome.Voltage)]
    [InlineData("fixed 5V,28V; wish 20W; cable EPR; edition R3.1", OfferOutcome.Chosen)]
    [InlineData("fixed 5V 3A,9V,28V; wish 15W; cable EPR; edition R3.1", OfferOutcome.Policy)]
    public void ObjectOfEprMode_IsPassedOverForAReason(string sink, OfferOutcome outcome)
    {
        IEnumerable<uint> epr = NegotiationRun.Words(Epr140);
        SinkNegotiation negotiation = Negotiator.Of(NegotiationRun.Offer(epr.Take(5), epr), NegotiationRun.Sink(sink), SinkPolicy.MostPower);

        OfferUse fixed28 = negotiation.Uses.Single(use => use.Offered.Position == 8);
        fixed28.Outcome.Should().Be(outcome);
        fixed28.Why.Should().NotBeEmpty();
    }

    [Theory]
    [InlineData(Pps25, "fixed 5V; wish 25W; edition R2.0", 3, OfferOutcome.Edition)]
    [InlineData(Pps25, "fixed 5V; wish 25W", 3, OfferOutcome.Kind)]
    [InlineData(Pps25, "fixed 5V; pps 12-16V; wish 25W", 3, OfferOutcome.Range)]
    [InlineData(Pps25, "fixed 5V; wish 25W", 2, OfferOutcome.Voltage)]
    [InlineData(Sixty5, "fixed 5V,9V,15V,20V; wish 65W", 2, OfferOutcome.LessPower)]
    [InlineData("0x0801912C 0xF0000000", "fixed 5V; wish 25W", 2, OfferOutcome.NoSupply)]
    [InlineData("0x0801912C 0x0002D000", "fixed 5V,9V; wish 25W", 2, OfferOutcome.NoSupply)]
    // Variable 4.75 V to 5.5 V, 3 A: at its lowest voltage 14.25 W.
    [InlineData("0x08019064 0x86E17D2C", "fixed 5V; variable 4.5-6V; wish 25W", 2, OfferOutcome.Chosen)]
    [InlineData("0x08019064 0x86E17D2C", "fixed 5V; variable 5-6V; wish 25W", 2, OfferOutcome.Range)]
    [InlineData("0x08019064 0x5A4108F0", "fixed 5V; variable 3-21V; wish 25W", 2, OfferOutcome.Chosen)]
    public void EveryObject_IsAccountedFor(string list, string sink, int position, OfferOutcome outcome)
    {
        SinkNegotiation negotiation = NegotiationRun.Negotiate(list, sink);

        negotiation.Uses.Should().HaveCount(list.Split(' ').Length);
        negotiation.Uses.Count(use => use.Outcome == OfferOutcome.Chosen).Should().Be(1);
        negotiation.Uses.Single(use => use.Offered.Position == position).Outcome.Should().Be(outcome);
    }

    [Fact]
    public void DeviceThatTakesNothing_GetsNothing()
    {
        SinkNegotiation negotiation = NegotiationRun.Negotiate("0x0002D12C", "fixed 5V; wish 15W");

        (negotiation.Start, negotiation.Best, negotiation.CapabilityMismatch).Should().Be((null, null, true));
        negotiation.GetsMinimum.Should().Be(Verdict.Fails);
        negotiation.Uses.Should().OnlyContain(use => use.IsBetter);
    }

    [Fact]
    public void PowerLimitedPps_GivesNoMoreThanTheSourceHas()
    {
        // 27 W, 5 V to 11 V 3 A, PPS Power Limited (bit 27): 33 W are not to be had, 27 W are at 9 V.
        SinkNegotiation negotiation = NegotiationRun.Negotiate("0x0801912C 0x0002D12C 0xC8DC323C", "fixed 5V; pps 3.3-11V 3A; wish 33W");

        negotiation.Power.Milliwatts.Should().Be(27_000);
        negotiation.CapabilityMismatch.Should().BeTrue();
    }

    // What was not shown may be more: that a device gets less is then no proven failure.
    [Theory]
    [InlineData(true, false, false, true)]
    [InlineData(false, true, false, true)]
    [InlineData(false, false, true, true)]
    [InlineData(false, false, false, false)]
    public void HiddenOffers_KeepItOpen(bool cable, bool objects, bool more, bool isOpen)
    {
        SourceOffer seen = NegotiationRun.Offer(Sixty);
        SourceOffer offer = new()
        {
            Port = "C1", File = "words", Spr = seen.Spr, EprCapable = false,
            CableMayHideCurrent = cable, HidesObjects = objects, MayListMore = more,
        };

        SinkNegotiation negotiation = Negotiator.Of(offer, NegotiationRun.Sink("laptop-65w"), SinkPolicy.MostPower);

        negotiation.GetsWish.Should().Be(isOpen ? Verdict.CannotTell : Verdict.Fails);
        negotiation.NextSteps.IsEmpty.Should().Be(!isOpen);
    }

    // R3.2v1.1, Tables 10.2 and 10.3: 9 V 2.22 A are all that a source of 20 W has, whatever the cable. 20 V 3 A may be more; 5 V 3 A may be
    // 5 V 4 A of the same 20 W; PPS 3 A of a source of 45 W may be 5 A.
    [Theory]
    [InlineData(Twenty, "fixed 5V,9V; wish 45W; cable 5A", false)]
    [InlineData(Twenty, "fixed 5V,9V; wish 45W; cable 3A", false)]
    [InlineData(Twenty, "fixed 5V; wish 20W; cable 5A", true)]
    [InlineData(Sixty, "fixed 5V,9V,15V,20V; wish 65W; cable 5A", true)]
    [InlineData(Sixty, "fixed 5V,9V,15V,20V; wish 65W; cable 3A", false)]
    [InlineData("0x0801912C 0x0002D12C 0x000640E1 0xC0DC323C", "fixed 5V,20V; pps 3.3-11V 5A; wish 50W; cable 5A", true)]
    [InlineData("0x0801912C 0x0002D12C 0x000640E1", "fixed 5V,20V; pps 3.3-11V 5A; wish 50W; cable 5A", false)]
    public void ListOverA3ACable_MayHideMoreOnlyWhereMoreIsPossible(string list, string sink, bool isOpen)
    {
        SourceOffer offer = NegotiationRun.Offer(list) with { CableMayHideCurrent = true, EprCapable = false };

        Negotiator.Of(offer, NegotiationRun.Sink(sink), SinkPolicy.MostPower).GetsWish.Should().Be(isOpen ? Verdict.CannotTell : Verdict.Fails);
    }

    // R3.2v1.1, 7.1.4.2.2: a source should reject PPS requests below 1 A (iPpsCLMin).
    [Theory]
    [InlineData("fixed 5V; pps 3.3-11V 0.8A; wish 8W", 3, OfferOutcome.Current)]
    [InlineData("fixed 5V; pps 5-11V; wish 4W", 3, OfferOutcome.Current)]
    [InlineData("fixed 5V; pps 3.3-11V 1A; wish 8W; minimum 6W", 3, OfferOutcome.Policy)]
    public void PpsRequest_IsForOneAmpereAtLeast(string sink, int position, OfferOutcome outcome) =>
        NegotiationRun.Negotiate(Pps25, sink).Uses.Single(use => use.Offered.Position == position).Outcome.Should().Be(outcome);

    // R3.2v1.1, 6.4.1.2.4.1.1 and 10.2: 9 V 2.22 A are a source of 20 W rounded down; at 10 V it gives 2 A.
    [Fact]
    public void PowerLimit_IsThePdpThatTheListWasRoundedFrom()
    {
        SourceOffer offer = NegotiationRun.Offer("0x0801912C 0x0002D0DE 0xC8DC3232");

        (offer with { Pdp = PowerDelivery.Units.Power.FromMilliwatts(20_000) }).PowerLimit.Milliwatts.Should().Be(20_000);
        (offer with { Pdp = PowerDelivery.Units.Power.FromMilliwatts(65_000) }).PowerLimit.Milliwatts.Should().Be(19_980);
        offer.PowerLimit.Milliwatts.Should().Be(19_980);
    }

    // What the device can draw is held to its own current, its cable and its range; 11 V 3 A of PPS, steps of 20 mV (Table 6.25).
    [Theory]
    [InlineData("fixed 5V; pps 4-9V 2A; wish 25W", 5000, 9000, 2000)]
    [InlineData("fixed 5V; pps 5.9-21V 5A; wish 25W; cable 5A", 5900, 11000, 3000)]
    [InlineData("fixed 5V; pps 5-11V 2.98A; wish 25W", 5000, 11000, 2950)]
    public void Curve_IsWhatBothReach(string sink, int from, int to, int milliamperes)
    {
        CurveSegment part = NegotiationRun.Negotiate(Pps25, sink).Uses[2].Curve.Should().ContainSingle().Which;

        (part.From.Millivolts, part.To.Millivolts, part.Limit.Milliamperes).Should().Be((from, to, milliamperes));
    }
}
