using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Messages;

/// <summary>Source: R3.2v1.1 Tables 6.5, 6.6 and 6.53, as in shared/vectors/message-types.json.</summary>
public sealed class MessageKindTests
{
    private static readonly Dictionary<(MessageClass, int), string> Tables = Vectors.Read("message-types.json")
        .GetProperty("entries").EnumerateArray().ToDictionary(
            entry => (Enum.Parse<MessageClass>(entry.GetProperty("class").GetString()!), entry.GetProperty("code").GetInt32()),
            entry => entry.GetProperty("name").GetString()!);

    [Theory]
    [InlineData(MessageClass.Control, "control")]
    [InlineData(MessageClass.Data, "data")]
    [InlineData(MessageClass.Extended, "extended")]
    public void EveryCode_HasTheNameOfTheTables_OrIsReserved(MessageClass messageClass, string word)
    {
        for (int code = 0; code <= 31; code++)
        {
            MessageKind kind = new(messageClass, code);
            bool listed = Tables.TryGetValue((messageClass, code), out string? name);
            kind.IsReserved.Should().Be(!listed, $"{messageClass} {code}");
            kind.Name.Should().Be(listed ? name : $"reserved ({word} {code})");
            kind.ToString().Should().Be(kind.Name);
        }
    }

    [Fact]
    public void NamedKinds_AreThoseOfTheTables() =>
        typeof(MessageKind).GetFields().Where(member => member.FieldType == typeof(MessageKind))
            .Select(member => ((MessageKind)member.GetValue(null)!).Name.Replace("_", "") == member.Name)
            .Should().HaveCount(Tables.Count).And.OnlyContain(same => same);

    [Theory]
    [InlineData(-1)]
    [InlineData(32)]
    public void CodeBeyondFiveBits_IsReserved(int code) =>
        new MessageKind(MessageClass.Data, code).Name.Should().Be($"reserved (data {code})");

    // R3.2v1.1, 6.2.1: Extended first, then the number of objects.
    [Theory]
    [InlineData(false, 0, MessageClass.Control)]
    [InlineData(false, 1, MessageClass.Data)]
    [InlineData(false, 7, MessageClass.Data)]
    [InlineData(true, 0, MessageClass.Extended)]
    [InlineData(true, 7, MessageClass.Extended)]
    public void HeaderFields_SelectTheClass(bool extended, int objects, MessageClass expected) =>
        MessageKind.From(extended, objects, 1).Class.Should().Be(expected);
}
