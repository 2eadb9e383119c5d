using CsCheck;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests;

/// <summary>The same tests for every kind of word. Sources of the check values: shared/README.md.</summary>
public sealed class WireTypeTests
{
    public static TheoryData<string, string> VectorNames()
    {
        TheoryData<string, string> names = [];
        foreach (WordVector vector in Vectors.Words())
        {
            names.Add(vector.Type, vector.Name);
        }

        return names;
    }

    public static IEnumerable<object[]> TypeNames => WireTypes.Names;

    [Theory]
    [MemberData(nameof(VectorNames))]
    public void KnownWord_DecodesToItsFields(string type, string name)
    {
        WordVector vector = VectorOf(type, name);
        Dictionary<string, long> expected = WireTypes.Of(type).Decode(0).ToDictionary(field => field.Key, _ => 0L);
        foreach ((string field, long value) in vector.Fields)
        {
            expected.Should().ContainKey(field, "a misspelt field would not be checked");
            expected[field] = value;
        }

        WireTypes.Of(type).Decode(vector.Word).Should().BeEquivalentTo(expected);
    }

    [Theory]
    [MemberData(nameof(VectorNames))]
    public void KnownFields_EncodeToTheWord(string type, string name)
    {
        WordVector vector = VectorOf(type, name);
        WireTypes.Of(type).Encode(new FieldReader(vector.Fields)).Should().Be(vector.Word);
    }

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void EveryKindOfWord_HasAKnownWord(string name) =>
        Vectors.Words().Should().Contain(vector => vector.Type == name);

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void AnyWord_DecodedAndEncoded_KeepsItsCodedBits(string name)
    {
        WireType type = WireTypes.Of(name);
        Gen.UInt.Sample(word =>
        {
            // Bits that Create has no parameter for are cleared first: it writes them as zero.
            uint sent = (word & type.CodedBits) | type.FixedBits;
            return type.Encode(new FieldReader(type.Decode(sent))) == sent;
        });
    }

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void ReservedBitsSet_DoNotChangeTheFields(string name)
    {
        WireType type = WireTypes.Of(name);
        Gen.UInt.Sample(word =>
            type.Decode(word | type.Layout.ReservedMask).OrderBy(field => field.Key)
                .SequenceEqual(type.Decode(word & ~type.Layout.ReservedMask).OrderBy(field => field.Key)));
    }

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void EachField_BeyondItsEnds_IsABadCall(string name)
    {
        WireType type = WireTypes.Of(name);
        uint full = type.CodedBits | type.FixedBits;
        Dictionary<string, long> largest = type.Decode(full);
        type.Encode(new FieldReader(largest)).Should().Be(full, "all fields at their largest fit");

        // Beyond a field's end, or between two of its steps; flags and the two ends of "unknown" have no such value.
        foreach ((string field, long value) in largest.Where(field => field.Value > 1))
        {
            foreach (long beyond in new[] { value + 1, -2 })
            {
                Action call = () => type.Encode(new FieldReader(new Dictionary<string, long>(largest) { [field] = beyond }));
                call.Should().Throw<ArgumentException>($"{field} cannot be {beyond}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(TypeNames))]
    public void AnyWord_Prints(string name) =>
        Gen.UInt.Sample(word => WireTypes.Of(name).Print(word).Length > 0);

    private static WordVector VectorOf(string type, string name) =>
        Vectors.Words().Single(vector => vector.Type == type && vector.Name == name);
}
