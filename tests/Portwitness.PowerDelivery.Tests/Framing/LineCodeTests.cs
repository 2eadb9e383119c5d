using System.Text.Json;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Framing;

/// <summary>Source: R3.2v1.1 chapter 5, as in shared/vectors/line-code.json.</summary>
public sealed class LineCodeTests
{
    private static readonly JsonElement File = Vectors.Read("line-code.json");

    [Fact]
    public void EveryNibble_HasItsCode_AndBack()
    {
        JsonElement[] entries = [.. File.GetProperty("data").EnumerateArray()];
        entries.Should().HaveCount(16);
        foreach (JsonElement entry in entries)
        {
            int nibble = entry.GetProperty("nibble").GetInt32();
            SymbolCode.Encode(nibble).Should().Be(Code(entry));
            SymbolCode.Decode(Code(entry)).Should().Be(new Symbol(SymbolKind.Data, nibble));
        }
    }

    [Fact]
    public void EveryKCode_HasItsCode_AndBack()
    {
        JsonElement[] entries = [.. File.GetProperty("k_codes").EnumerateArray()];
        entries.Should().HaveCount(6);
        foreach (JsonElement entry in entries)
        {
            SymbolKind kind = Enum.Parse<SymbolKind>(entry.GetProperty("name").GetString()!);
            SymbolCode.Encode(kind).Should().Be(Code(entry));
            SymbolCode.Decode(Code(entry)).Should().Be(new Symbol(kind));
        }
    }

    [Fact]
    public void OtherPatterns_AreInvalid_NotAnError() =>
        Enumerable.Range(0, 32).Where(code => SymbolCode.Decode(code).Kind == SymbolKind.Invalid).Should().BeEquivalentTo(
            File.GetProperty("invalid").EnumerateArray().Select(code => Convert.ToInt32(code.GetString(), 2)));

    [Fact]
    public void BadCalls_Throw()
    {
        ((Action)(() => SymbolCode.Encode(16))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => SymbolCode.Encode(-1))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => SymbolCode.Encode(SymbolKind.Data))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => SymbolCode.Decode(32))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => OrderedSet.CodesOf((OrderedSetKind)7))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => FrameEncoder.EncodeReset(OrderedSetKind.Sop))).Should().Throw<ArgumentException>();
    }

    [Fact]
    public void EveryOrderedSet_HasItsCodes_AndIsMatched()
    {
        JsonElement[] entries = [.. File.GetProperty("ordered_sets").EnumerateArray()];
        entries.Should().HaveCount(Enum.GetValues<OrderedSetKind>().Length);
        foreach (JsonElement entry in entries)
        {
            OrderedSetKind kind = Enum.Parse<OrderedSetKind>(entry.GetProperty("name").GetString()!);
            OrderedSet.CodesOf(kind).ToArray().Should().Equal(Codes(entry));
            OrderedSet.Match(Codes(entry), out int matching).Should().Be(kind);
            matching.Should().Be(4);
        }
    }

    // R3.2v1.1, Table 5.3: three right codes of four may be accepted.
    [Fact]
    public void OneInvalidSymbol_StillMatches_TwoDoNot()
    {
        foreach (OrderedSetKind kind in Enum.GetValues<OrderedSetKind>())
        {
            for (int place = 0; place < OrderedSet.Length; place++)
            {
                SymbolKind[] symbols = OrderedSet.CodesOf(kind).ToArray();
                symbols[place] = SymbolKind.Invalid;
                OrderedSet.Match(symbols, out int matching).Should().Be(kind);
                matching.Should().Be(3);
                symbols[(place + 1) % OrderedSet.Length] = SymbolKind.Eop;
                OrderedSet.Match(symbols, out matching).Should().BeNull();
                matching.Should().Be(0);
            }
        }
    }

    [Fact]
    public void AsCloseToTwoSets_MatchesNeither()
    {
        // One code from SOP and one from SOP'.
        SymbolKind[] symbols = [SymbolKind.Sync1, SymbolKind.Sync1, SymbolKind.Sync1, SymbolKind.Sync3];
        OrderedSet.Match(symbols, out _).Should().BeNull();
        OrderedSet.Match(symbols.AsSpan(0, 3), out _).Should().BeNull("three symbols are no ordered set");
    }

    [Theory]
    [InlineData(SopKind.Sop, OrderedSetKind.Sop)]
    [InlineData(SopKind.SopPrime, OrderedSetKind.SopPrime)]
    [InlineData(SopKind.SopDoublePrime, OrderedSetKind.SopDoublePrime)]
    [InlineData(SopKind.SopPrimeDebug, OrderedSetKind.SopPrimeDebug)]
    [InlineData(SopKind.SopDoublePrimeDebug, OrderedSetKind.SopDoublePrimeDebug)]
    public void SopKind_HasAnOrderedSet_AndBack(SopKind sop, OrderedSetKind set)
    {
        OrderedSet.Of(sop).Should().Be(set);
        OrderedSet.SopOf(set).Should().Be(sop);
    }

    [Fact]
    public void KnownFrame_HasTheKnownLineBits()
    {
        JsonElement frame = File.GetProperty("frames")[0];
        frame.GetProperty("sop").GetString().Should().Be("SOP");
        byte[] bytes = Vectors.ParseBytes(frame.GetProperty("bytes").GetString()!);
        byte[] bits = FrameEncoder.Encode(SopKind.Sop, bytes);
        bits.Should().HaveCount(frame.GetProperty("total_bits").GetInt32());
        bits.Length.Should().Be(FrameEncoder.BitCount(bytes.Length));
        string.Concat(bits.Take(64)).Should().Be(string.Concat(Enumerable.Repeat("01", 32)));
        string.Concat(bits.Skip(64)).Should().Be(
            frame.GetProperty("bits_after_preamble").GetString()!.Replace(" ", ""));
    }

    // RST-1 00111 and RST-2 11001 of the table, bit 0 first.
    [Fact]
    public void Reset_IsPreambleAndOrderedSetOnly() =>
        string.Concat(FrameEncoder.EncodeReset(OrderedSetKind.HardReset).Skip(64))
            .Should().Be("11100" + "11100" + "11100" + "10011");

    private static byte Code(JsonElement entry) => Convert.ToByte(entry.GetProperty("code").GetString(), 2);

    private static SymbolKind[] Codes(JsonElement entry) =>
        [.. entry.GetProperty("codes").EnumerateArray().Select(code => Enum.Parse<SymbolKind>(code.GetString()!))];
}
