namespace Portwitness.Captures.Tests;

/// <summary>Members of a header that the format does not name (captures/FORMAT.md): kept, without a meaning, and noted with their place.</summary>
public class HeaderNoteTests
{
    [Theory]
    [InlineData("""{"capture":1,"editon":"R3.2"}""", 14, "\"editon\" is no member of a capture's header. Did you mean \"edition\"?")]
    [InlineData("""{"capture":1,"cable":{"curent_a":5}}""", 23, "\"curent_a\" is no member of a header's \"cable\". Did you mean \"current_a\"?")]
    [InlineData("""{"capture":1,"accuracy":{"vbus_m":5}}""", 26, "\"vbus_m\" is no member of a header's \"accuracy\". Did you mean \"vbus_mv\"?")]
    [InlineData("""{"capture":1,"bench":"3"}""", 14, "\"bench\" is no member of a capture's header. Known members: capture, port")]
    public void UnknownMember_IsNotedAndTheCaptureRead(string header, int column, string detail)
    {
        Recording recording = Read(header);

        recording.Messages.Should().ContainSingle();
        CaptureFault note = recording.Faults.Should().ContainSingle().Which;
        (note.Line, note.Column, note.Code).Should().Be((1, column, FaultCodes.HeaderMemberUnknown));
        note.Detail.Should().StartWith(detail).And.EndWith("Nothing is read from it.");
    }

    [Fact]
    public void UnknownMember_IsKept() => Read("""{"capture":1,"bench":"3"}""").Header.Extra.Should().Be("""{"bench":"3"}""");

    [Fact]
    public void UnknownMemberThatIsNull_IsNotThere() => Read("""{"capture":1,"bench":null}""").Faults.Should().BeEmpty();

    private static Recording Read(string header) => Recording.Of(header + "\n{\"t\":10,\"sop\":\"SOP\",\"hex\":\"4102\"}\n");
}
