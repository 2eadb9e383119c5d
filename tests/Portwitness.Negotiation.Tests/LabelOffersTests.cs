using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Negotiation.Tests;

/// <summary>
/// Labels taken at their word: words of USB PD objects, as the kernel's macros and R3.2v1.1, Tables 6.9 and 6.13 to 6.15, make them of the
/// printed figures (shared/vectors).
/// </summary>
public class LabelOffersTests
{
    [Fact]
    public void FixedRatings_BecomeTheirWords()
    {
        SourceOffer offer = Only("USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)");

        Words(offer.Spr).Should().Equal("0x0001912C", "0x0002D12C", "0x0004B12C", "0x00064145");
        (offer.Port, offer.Epr.IsEmpty, offer.EprCapable, offer.IsPrinted).Should().Be(("C1", true, false, true));
    }

    // 0xC1A43241 and 0xE004B145 are PPS 5 to 21 V 3.25 A and SPR AVS 3 A, 3.25 A; 68.25 W of PPS are more than the printed 65 W, so that
    // the power limit is set (bit 27).
    [Fact]
    public void Ranges_BecomeAugmentedObjectsWithAvsFirst() =>
        Words(Only("USB-C1: 5V⎓3A 20V⎓3.25A (65W Max) PPS 5-21V⎓3.25A AVS 9-20V⎓3.25A").Spr)
            .Should().Equal("0x0001912C", "0x00064145", "0xE0051545", "0xC9A43241");

    [Fact]
    public void EprRatings_BecomeAnEprListBehindSevenPositions()
    {
        SourceOffer offer = Only("USB-C1: 5V⎓3A 20V⎓5A 28V⎓5A (140W Max) AVS 15-28V⎓5A");

        offer.EprCapable.Should().BeTrue();
        Words(offer.Spr).Should().Equal("0x0081912C", "0x000641F4");
        Words(offer.Epr).Should().Equal(
            "0x0081912C", "0x000641F4", "0x00000000", "0x00000000", "0x00000000", "0x00000000", "0x00000000", "0x0008C1F4", "0xD230968C");
    }

    [Theory]
    // Other protocols, voltages that no object has, and ports without PD offer nothing of PD; from memory: PD needs a Type-C port.
    [InlineData("USB-C1: 5V⎓3A  QC 9V⎓2A", "C1", "9V")]
    [InlineData("USB-C1: 5V⎓3A 9V⎓2A\nUSB-A: 5V⎓2.4A", "C1", "USB-A")]
    [InlineData("USB-C1: 5V⎓3A 9V⎓6.5A", "C1", "9V")]
    public void WhatPdCannotSay_IsPassedOverAloud(string label, string port, string named)
    {
        ImmutableArray<SourceOffer> offers = LabelOffers.Of(LabelReader.Read(label), out ImmutableArray<CaptureFault> faults);

        offers.Should().ContainSingle().Which.Port.Should().Be(port);
        faults.Should().ContainSingle(fault => fault.Line > 0 && fault.Column > 0 && fault.Code == "rating-unused")
            .Which.Detail.Should().Contain(named);
    }

    // R3.2v1.1, 6.4.10.1, step 4: a source knows the cable that is its own.
    [Fact]
    public void CaptiveCable_TakesThePlaceOfTheDevicesOwn()
    {
        SourceOffer offer = Only("USB-C1: 5V⎓3A 20V⎓5A (100W Max)") with { HasCaptiveCable = true };

        Negotiator.Of(offer, NegotiationRun.Sink("fixed 5V,20V; wish 100W; cable 3A"), SinkPolicy.MostPower).Power.Milliwatts.Should().Be(100_000);
    }

    [Fact]
    public void ArbitraryLabels_NeverThrow()
    {
        string[] pieces = ["USB-C1:", "USB-A:", "5V", "9V", "28V", "48V", "⎓", "3A", "0A", "99A", "PPS", "AVS", "3.3-11V", "15-28V", "(65W Max)", " ", "\n", "+", "0.001V"];
        Random random = new(17);
        for (int round = 0; round < 5_000; round++)
        {
            Label label = LabelReader.Read(string.Concat(Enumerable.Range(0, random.Next(14)).Select(_ => pieces[random.Next(pieces.Length)])));
            ImmutableArray<SourceOffer> offers = LabelOffers.Of(label, out ImmutableArray<CaptureFault> faults);

            faults.Where(fault => fault.Detail.Length == 0).Should().BeEmpty();
            foreach (SourceOffer offer in offers)
            {
                Negotiator.Of(offer, ShippedSinks.All[random.Next(ShippedSinks.All.Length)], SinkPolicy.MostPower).Uses.Should().NotBeEmpty();
            }
        }
    }

    private static SourceOffer Only(string label)
    {
        ImmutableArray<SourceOffer> offers = LabelOffers.Of(LabelReader.Read(label), out ImmutableArray<CaptureFault> faults);
        faults.Should().BeEmpty();
        return offers.Should().ContainSingle().Which;
    }

    private static IEnumerable<string> Words(ImmutableArray<OfferedObject> objects) => objects.Select(offered => $"0x{offered.Raw:X8}");
}
