using System.Collections.Immutable;

namespace Portwitness.Analysis.Conversation;

/// <summary>All that follow a capture, in the order in which they are told of its records.</summary>
internal static class CaptureFollowers
{
    /// <summary>Followers for one capture.</summary>
    public static ImmutableArray<ICaptureFollower> For(CaptureContext context) =>
    [
        new PortStatementFollower(context),
        new ContentFollower(context),
        new RequestFollower(context),
        new ConversationJudge(context),
        new CableFollower(context),
        new VbusFollower(context),
        new StatusFollower(context),
        new LineFollower(context),
        context.Forewarnings,
        context.Bench,
        context.Trace,
    ];
}
