using CsCheck;
using Google.Protobuf.Reflection;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Service.Translation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests.Translation;

/// <summary>Words are put together by hand from the tables of R3.2v1.1 that each test names.</summary>
public sealed class PowerObjectTranslationTests
{
    private const uint All = uint.MaxValue;

    [Fact]
    public void FixedOfASource_Table69()
    {
        // Bits 27 and 25 set, peak current 2, 100 × 50 mV, 300 × 10 mA.
        const uint Word = (1u << 27) | (1u << 25) | (2u << 20) | (100u << 10) | 300u;

        Translate(Word).Should().Be(new Wire.PowerObject
        {
            Position = 1,
            Raw = Word,
            RawHex = "0x0A21912C",
            Fixed = new Wire.FixedSupply
            {
                VoltageMv = 5000,
                MaxCurrentMa = 3000,
                PeakCurrentCode = 2,
                DualRolePower = false,
                UsbSuspendSupported = false,
                UnconstrainedPower = true,
                UsbCommunicationsCapable = false,
                DualRoleData = true,
                UnchunkedExtendedMessages = false,
                EprCapable = false,
            },
        });
    }

    [Fact]
    public void FixedOfASink_Table617()
    {
        // Bit 28 is Higher Capability, bits 24 and 23 the Fast Role Swap current, bits 9 to 0 the operational current.
        Wire.FixedSupply supply = Translate((1u << 28) | (3u << 23) | (180u << 10) | 200u, MessageKind.SinkCapabilities).Fixed;

        supply.Should().Be(new Wire.FixedSupply
        {
            VoltageMv = 9000,
            MaxCurrentMa = 2000,
            DualRolePower = false,
            HigherCapability = true,
            UnconstrainedPower = false,
            UsbCommunicationsCapable = false,
            DualRoleData = false,
            FastRoleSwapCode = 3,
        });
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Battery_Tables612And619(bool source) =>
        Translate((1u << 30) | (400u << 20) | (100u << 10) | 180u, List(source)).Battery.Should().Be(
            new Wire.BatterySupply { MaxVoltageMv = 20000, MinVoltageMv = 5000, MaxPowerMw = 45000 });

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Variable_Tables611And618(bool source) =>
        Translate((2u << 30) | (240u << 20) | (60u << 10) | 150u, List(source)).Variable.Should().Be(
            new Wire.VariableSupply { MaxVoltageMv = 12000, MinVoltageMv = 3000, MaxCurrentMa = 1500 });

    [Fact]
    public void PpsOfASource_Table613() =>
        Translate((0xCu << 28) | (1u << 27) | (110u << 17) | (33u << 8) | 100u).Pps.Should().Be(
            new Wire.PpsSupply { MinVoltageMv = 3300, MaxVoltageMv = 11000, MaxCurrentMa = 5000, PowerLimited = true });

    [Fact]
    public void PpsOfASink_SaysNothingOfPowerLimits() =>
        Translate((0xCu << 28) | (110u << 17) | (33u << 8) | 100u, MessageKind.SinkCapabilities).Pps.HasPowerLimited
            .Should().BeFalse();

    [Fact]
    public void SprAvs_Table614() =>
        Translate((0xEu << 28) | (1u << 26) | (300u << 10) | 225u).SprAvs.Should().Be(
            new Wire.SprAvsSupply { MaxCurrent15VMa = 3000, MaxCurrent20VMa = 2250, PeakCurrentCode = 1 });

    [Fact]
    public void EprAvs_Table615() =>
        Translate((0xDu << 28) | (280u << 17) | (150u << 8) | 140u, MessageKind.EPRSourceCapabilities).EprAvs.Should().Be(
            new Wire.EprAvsSupply { MinVoltageMv = 15000, MaxVoltageMv = 28000, PdpW = 140, PeakCurrentCode = 0 });

    [Fact]
    public void ReservedSubtype_IsReserved() =>
        Translate(0xF0000001).KindCase.Should().Be(Wire.PowerObject.KindOneofCase.Reserved);

    [Fact]
    public void ZeroInAnEprList_IsPadding() =>
        Translate(0, MessageKind.EPRSourceCapabilities).KindCase.Should().Be(Wire.PowerObject.KindOneofCase.Padding);

    [Fact]
    public void ZeroInAnSprList_IsAFixedSupplyOf0V() => Translate(0).Fixed.VoltageMv.Should().Be(0);

    [Fact]
    public void BitsNeverShown_StayAbsent()
    {
        // Only type, voltage and current were shown, as a kernel log shows them.
        Wire.PowerObject translated = new OfferedObject(2, 0x0002D12C, 0xC00FFFFF).ToContract(MessageKind.SourceCapabilities);

        translated.KnownBits.Should().Be(0xC00FFFFF);
        translated.Fixed.Should().Be(new Wire.FixedSupply { VoltageMv = 9000, MaxCurrentMa = 3000 });
    }

    [Fact]
    public void KindNeverShown_HasNoKind() =>
        new OfferedObject(1, 0, 0x3FFFFFFF).ToContract(MessageKind.SourceCapabilities).KindCase
            .Should().Be(Wire.PowerObject.KindOneofCase.None);

    [Fact]
    public void AnyWordWithAnyBitsShown_KeepsTheWordAndSetsNoMemberMoreThanWithAll() =>
        Gen.Select(Gen.UInt, Gen.UInt, Gen.Bool).Sample((raw, known, source) =>
        {
            MessageKind list = List(source);
            Wire.PowerObject part = new OfferedObject(1, raw & known, known).ToContract(list);
            Wire.PowerObject whole = new OfferedObject(1, raw & known, All).ToContract(list);
            part.Raw.Should().Be(raw & known);
            if (part.KindCase != Wire.PowerObject.KindOneofCase.None)
            {
                part.KindCase.Should().Be(whole.KindCase);
                Members(part).Should().BeSubsetOf(Members(whole));
            }
        });

    private static IEnumerable<(string, object)> Members(Wire.PowerObject translated)
    {
        Google.Protobuf.IMessage kind = (Google.Protobuf.IMessage)Wire.PowerObject.Descriptor.Oneofs
            .Single(oneof => oneof.Name == "kind").Accessor.GetCaseFieldDescriptor(translated).Accessor.GetValue(translated);
        foreach (FieldDescriptor field in kind.Descriptor.Fields.InDeclarationOrder().Where(field => field.Accessor.HasValue(kind)))
        {
            yield return (field.Name, field.Accessor.GetValue(kind));
        }
    }

    private static MessageKind List(bool source) => source ? MessageKind.SourceCapabilities : MessageKind.SinkCapabilities;

    private static Wire.PowerObject Translate(uint word, MessageKind? list = null) =>
        new OfferedObject(1, word, All).ToContract(list ?? MessageKind.SourceCapabilities);
}
