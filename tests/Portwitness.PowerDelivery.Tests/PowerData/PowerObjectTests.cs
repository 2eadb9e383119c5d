using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.PowerData;

public sealed class PowerObjectTests
{
    // R3.2v1.1, Tables 6.7 and 6.8: type in bits 31 to 30, subtype in bits 29 to 28.
    [Theory]
    [InlineData(0x0, PowerObjectKind.Fixed, "fixed", false)]
    [InlineData(0x3, PowerObjectKind.Fixed, "fixed", false)]
    [InlineData(0x4, PowerObjectKind.Battery, "battery", false)]
    [InlineData(0x7, PowerObjectKind.Battery, "battery", false)]
    [InlineData(0x8, PowerObjectKind.Variable, "variable", false)]
    [InlineData(0xB, PowerObjectKind.Variable, "variable", false)]
    [InlineData(0xC, PowerObjectKind.Pps, "PPS", true)]
    [InlineData(0xD, PowerObjectKind.EprAvs, "EPR AVS", true)]
    [InlineData(0xE, PowerObjectKind.SprAvs, "SPR AVS", true)]
    [InlineData(0xF, PowerObjectKind.Reserved, "reserved", true)]
    public void TopBits_SelectTheKind(uint top, PowerObjectKind kind, string text, bool augmented)
    {
        foreach (uint rest in new uint[] { 0, 0x0FFF_FFFF })
        {
            SourcePowerObject source = new((top << 28) | rest);
            SinkPowerObject sink = new(source.Raw);
            source.Kind.Should().Be(kind);
            sink.Kind.Should().Be(kind);
            source.Layout.Name.Should().NotBeNullOrEmpty();
            (source.ToString() + sink).Should().Contain(source.Layout.Name).And.Contain(sink.Layout.Name);
        }

        kind.ToText().Should().Be(text);
        kind.IsAugmented().Should().Be(augmented);
    }

    [Fact]
    public void EveryKind_SelectsALayoutOfItsOwn()
    {
        uint[] words = [0, 0x4000_0000, 0x8000_0000, 0xC000_0000, 0xD000_0000, 0xE000_0000];
        IEnumerable<BitLayout> layouts = words.Select(word => new SourcePowerObject(word).Layout)
            .Concat(words.Select(word => new SinkPowerObject(word).Layout));
        layouts.Should().OnlyHaveUniqueItems();
    }

    // R3.2v1.1, Tables 6.9 and 6.17: bit 28 of a source is not that of a sink.
    [Fact]
    public void Bit28_MeansSuspendToASource_AndHigherCapabilityToASink()
    {
        new SourcePowerObject(1u << 28).AsFixed().UsbSuspendSupported.Should().BeTrue();
        new SinkPowerObject(1u << 28).AsFixed().HigherCapability.Should().BeTrue();
        FixedSourceSupply.Layout.ReservedMask.Should().Be(1u << 22);
        FixedSinkSupply.Layout.ReservedMask.Should().Be(7u << 20);
    }

    // R3.2v1.1, Table 6.14: the 15 V to 20 V current is zero when the range ends at 15 V.
    [Theory]
    [InlineData(0xE0042C00, 15_000)]
    [InlineData(0xE004B12C, 20_000)]
    public void SprAvs_RangeEndsWhereItsCurrentsSay(uint word, int maximum)
    {
        new SprAvsSourceSupply(word).MaximumVoltage.Should().Be(Voltage.FromMillivolts(maximum));
        SprAvsSourceSupply.MinimumVoltage.Should().Be(Voltage.FromMillivolts(9_000));
    }

    [Fact]
    public void FlagChanged_KeepsReservedBits() =>
        new FixedSourceSupply(0xFFFF_FFFF).With(FixedSourceSupply.EprCapableField, false).Raw.Should().Be(0xFF7F_FFFF);
}
