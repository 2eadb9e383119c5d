using CsCheck;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.ExtendedBlocks;

/// <summary>The same tests for every kind of data block. Sources of the check values: shared/README.md.</summary>
public sealed class BlockTests
{
    public static IEnumerable<object[]> LayoutNames => BlockLayouts.All.Select(layout => new object[] { layout.Name });

    public static IEnumerable<object[]> VectorNames => BlockVector.Names;

    [Theory]
    [MemberData(nameof(VectorNames))]
    public void KnownBytes_DecodeToTheirFields(string name)
    {
        BlockVector vector = BlockVector.Of(name);
        DataBlock block = DataBlock.Of(vector.Bytes);
        BlockField[] fields = Coded(vector.Layout);
        vector.Fields.Keys.Should().BeSubsetOf(fields.Select(field => field.Name));
        foreach (BlockField field in fields)
        {
            long value = block.Get(field)!.Value * (long)field.Bits.Scale;
            value.Should().Be(vector.Fields.GetValueOrDefault(field.Name), field.Name);
        }

        block.From(vector.Layout.Size).Bytes.ToArray().Should().Equal(vector.Rest);
        BlockLayouts.For(vector.Kind, vector.Sop).Should().BeSameAs(vector.Layout);
    }

    [Theory]
    [MemberData(nameof(VectorNames))]
    public void KnownFields_EncodeToTheBytes(string name)
    {
        BlockVector vector = BlockVector.Of(name);
        DataBlock block = DataBlock.Blank(vector.Layout.Size);
        foreach (BlockField field in Coded(vector.Layout))
        {
            block = block.WithScaled(field, (int)vector.Fields.GetValueOrDefault(field.Name));
        }

        block.Bytes.ToArray().Should().Equal(vector.Bytes[..vector.Layout.Size]);
        (block == DataBlock.Of(vector.Bytes)).Should().BeFalse("two blocks are two objects");
        block.Should().Be(DataBlock.Of(vector.Bytes.AsSpan(0, vector.Layout.Size)));
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void EveryLayout_CoversItsBytesOnce_InOrder(string name)
    {
        BlockLayout layout = Of(name);
        int next = 0;
        foreach (IGrouping<int, BlockField> group in layout.Fields.GroupBy(field => field.Offset))
        {
            group.Key.Should().Be(next, $"bytes of {name} follow each other");
            group.Select(field => field.Length).Distinct().Should().ContainSingle();
            int bit = (group.First().Length * 8) - 1;
            foreach (BlockField field in group)
            {
                field.Bits.High.Should().Be(bit, $"{field.Name} follows the field above it");
                bit = field.Bits.Low - 1;
            }

            bit.Should().Be(-1);
            next += group.First().Length;
        }

        next.Should().Be(layout.Size);
        layout.Clause.Should().MatchRegex(@"^R\d\.\d");
        layout.ToString().Should().Be(name);
        Coded(layout).Select(field => field.Name).Should().OnlyHaveUniqueItems();
    }

    // R3.2v1.1, Table 6.53, and the lengths before EPR (from memory).
    [Theory]
    [InlineData("Source Capabilities Extended Data Block", 25)]
    [InlineData("Sink Capabilities Extended Data Block", 24)]
    [InlineData("Status Data Block", 7)]
    [InlineData("Status Data Block, cable plug", 2)]
    [InlineData("PPS Status Data Block", 4)]
    [InlineData("Battery Capability Data Block", 9)]
    [InlineData("Battery reference", 1)]
    [InlineData("Get Manufacturer Info Data Block", 2)]
    [InlineData("Manufacturer Info Data Block", 4)]
    [InlineData("Country Info Data Block", 4)]
    [InlineData("Extended Control Data Block", 2)]
    [InlineData("Vendor Defined Extended Data Block", 4)]
    public void Layout_HasTheSizeOfTheStandard(string name, int size) => Of(name).Size.Should().Be(size);

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void EveryLayout_HasAKnownBlockAndAView(string name)
    {
        BlockVector.All.Should().Contain(vector => vector.Layout.Name == name);
        BlockViews.ByLayout.Should().ContainKey(name);
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void AnyBytes_TakenApartAndPutTogether_AreTheSameBytes(string name)
    {
        BlockLayout layout = Of(name);
        Gen.Byte.Array[layout.Size].Sample(bytes =>
        {
            DataBlock given = DataBlock.Of(bytes);
            DataBlock built = layout.Fields.Aggregate(
                DataBlock.Blank(layout.Size), (block, field) => block.With(field, given.Get(field)!.Value));
            return built.Equals(given) && built.GetHashCode() == given.GetHashCode();
        });
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void BlockCutShort_TellsWhatIsThereAndNoMore(string name)
    {
        BlockLayout layout = Of(name);
        byte[] bytes = [.. Enumerable.Repeat((byte)0xA5, layout.Size)];
        for (int length = 0; length <= bytes.Length; length++)
        {
            DataBlock block = DataBlock.Of(bytes.AsSpan(0, length));
            foreach (BlockField field in layout.Fields)
            {
                block.Get(field).HasValue.Should().Be(field.Offset + field.Length <= length, $"{field.Name} of {length} bytes");
            }
        }
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void BitsNotShown_MakeTheirFieldUnknown(string name)
    {
        BlockLayout layout = Of(name);
        byte[] bytes = new byte[layout.Size];
        for (int bit = 0; bit < layout.Size * 8; bit++)
        {
            byte[] known = [.. Enumerable.Repeat((byte)0xFF, layout.Size)];
            known[bit / 8] ^= (byte)(1 << (bit % 8));
            DataBlock block = DataBlock.Of(bytes, known);
            block.IsWhollyKnown.Should().BeFalse();
            layout.Fields.Where(field => block.Get(field) is null).Should().ContainSingle()
                .Which.Should().Match<BlockField>(field => field.Offset * 8 + field.Bits.Low <= bit
                    && bit <= field.Offset * 8 + field.Bits.High);
        }
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void EachField_BeyondItsEnds_IsABadCall(string name)
    {
        foreach (BlockField field in Of(name).Fields.Where(field => field.Bits.Width < 32))
        {
            DataBlock full = DataBlock.Blank(Of(name).Size);
            full.With(field, field.Bits.Maximum).Get(field).Should().Be(field.Bits.Maximum);
            ((Action)(() => full.With(field, field.Bits.Maximum + 1))).Should().Throw<ArgumentOutOfRangeException>();
            ((Action)(() => full.WithScaled(field, -1))).Should().Throw<ArgumentOutOfRangeException>();
            ((Action)(() => DataBlock.Blank(field.End - 1).With(field, 0))).Should().Throw<ArgumentOutOfRangeException>();
        }
    }

    [Theory]
    [MemberData(nameof(LayoutNames))]
    public void AnyBytesAndMasks_NeverThrow_AndPrint(string name) =>
        Gen.Select(Gen.Byte.Array[0, 300], Gen.Byte.Array[300]).Sample((bytes, mask) =>
            BlockViews.Print(Of(name), DataBlock.Of(bytes)).Length > 0
            && BlockViews.Print(Of(name), DataBlock.Of(bytes, mask.AsSpan(0, bytes.Length))).Length > 0);

    [Fact]
    public void MaskOfAnotherLength_IsABadCall()
    {
        Action call = () => DataBlock.Of([1, 2], [0xFF]);
        call.Should().Throw<ArgumentException>();
        ((Action)(() => DataBlock.Blank(-1))).Should().Throw<ArgumentOutOfRangeException>();
    }

    private static BlockLayout Of(string name) => BlockLayouts.All.Single(layout => layout.Name == name);

    private static BlockField[] Coded(BlockLayout layout) => [.. layout.Fields.Where(field => !field.Bits.IsReserved)];
}
