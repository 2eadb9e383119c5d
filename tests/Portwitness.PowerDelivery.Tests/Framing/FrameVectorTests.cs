using System.Text.Json;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Framing;

/// <summary>Whole messages of shared/vectors/frames.json; their CRCs are zlib's.</summary>
public sealed class FrameVectorTests
{
    private static readonly JsonElement File = Vectors.Read("frames.json");

    public static IEnumerable<object[]> Names =>
        File.GetProperty("entries").EnumerateArray().Select(entry => new object[] { Text(entry, "name") });

    [Theory]
    [MemberData(nameof(Names))]
    public void KnownMessage_HasTheKnownCrc(string name)
    {
        byte[] bytes = Vectors.ParseBytes(Text(Of(name), "bytes"));
        byte[] crc = Vectors.ParseBytes(Text(Of(name), "crc_bytes"));
        MessageCrc.Of(bytes).Should().Be(Vectors.ParseHex(Text(Of(name), "crc")));
        MessageCrc.Of([.. bytes, .. crc]).Should().Be(MessageCrc.Residue);
        MessageCrc.IsRight([.. bytes, .. crc]).Should().BeTrue();
        MessageCrc.IsRight([.. bytes, .. crc.Reverse()]).Should().BeFalse();
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void KnownMessage_SplitsAsListed(string name)
    {
        JsonElement entry = Of(name);
        MessageView.TryRead(Vectors.ParseBytes(Text(entry, "bytes")), out MessageView view).Should().BeTrue();
        view.Header.Kind.Name.Should().Be(Text(entry, "message"));
        view.TrailingBytes.Length.Should().Be(0);
        if (entry.TryGetProperty("objects", out JsonElement objects))
        {
            Words(objects).Should().Equal(Objects(view)).And.HaveCount(view.ClaimedObjects);
        }
        else
        {
            view.ExtendedHeader!.Value.Raw.Should().Be((ushort)Vectors.ParseHex(Text(entry, "extended_header")));
            view.Data.ToArray().Should().Equal(Vectors.ParseBytes(Text(entry, "data")));
            view.Padding.Length.Should().Be(entry.GetProperty("padding").GetInt32());
        }
    }

    // The seventh object straddles the two chunks: bytes are joined before objects are read (R3.2v1.1, 6.2.1.2).
    [Fact]
    public void ChunksJoined_GiveTheObjects()
    {
        JsonElement whole = File.GetProperty("reassembled");
        List<byte> block = [];
        foreach (JsonElement chunk in whole.GetProperty("chunks").EnumerateArray())
        {
            MessageView.TryRead(Vectors.ParseBytes(Text(Of(chunk.GetString()!), "bytes")), out MessageView view);
            block.AddRange(view.Data);
            view.ExtendedHeader!.Value.DataSize.Should().Be(36);
        }

        block.Chunk(4).Select(bytes => BitConverter.ToUInt32(bytes)).Should().Equal(Words(whole.GetProperty("objects")));
    }

    private static JsonElement Of(string name) =>
        File.GetProperty("entries").EnumerateArray().Single(entry => Text(entry, "name") == name);

    private static string Text(JsonElement entry, string member) => entry.GetProperty(member).GetString()!;

    private static IEnumerable<uint> Words(JsonElement words) =>
        words.EnumerateArray().Select(word => Vectors.ParseHex(word.GetString()!));

    private static List<uint> Objects(MessageView view)
    {
        List<uint> objects = [];
        for (int i = 0; i < view.CompleteObjects; i++)
        {
            objects.Add(view.ObjectAt(i));
        }

        return objects;
    }
}
