using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.Exchanges;

/// <summary>A request, and what it is owed.</summary>
public sealed class Exchange
{
    /// <summary>Whether something is still owed.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>What may answer it.</summary>
    public AnswerRow Row { get; private set; } = null!;

    /// <summary>The request.</summary>
    public Delivery Request { get; private set; }

    /// <summary>The answer that begins a sequel: Accept, or Enter Acknowledged.</summary>
    public Delivery Answer { get; private set; }

    /// <summary>Whether the answer came and its sequel is owed.</summary>
    public bool IsInSequel { get; private set; }

    /// <summary>The power that changes, in a sequel to a request.</summary>
    public PowerStep Step { get; private set; }

    /// <summary>The message that ends the sequel to Accept.</summary>
    public MessageKind Completion => Row.Request == MessageKind.DataReset ? MessageKind.DataResetComplete : MessageKind.PSRDY;

    /// <summary>When the last step of it was acknowledged; -1 when that was not seen.</summary>
    public long AcknowledgedUs => IsInSequel ? Answer.AcknowledgedUs : Request.AcknowledgedUs;

    /// <summary>Whether the other's next MessageID was known when it was asked: only then does an answer that was missed show.</summary>
    public bool OtherIsKnown { get; private set; }

    /// <summary>A request.</summary>
    public void Begin(AnswerRow row, in Delivery request, bool otherIsKnown)
    {
        (IsOpen, Row, Request, IsInSequel) = (true, row, request, false);
        OtherIsKnown = otherIsKnown;
    }

    /// <summary>Its answer, after which more is owed.</summary>
    public void GoOn(in Delivery answer, PowerStep step) => (IsInSequel, Answer, Step) = (true, answer, step);

    /// <summary>Nothing more is owed.</summary>
    public void Close() => IsOpen = false;

    /// <summary>A message of it was acknowledged, or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        if (Request.Index == delivery.Index)
        {
            Request = delivery;
        }
        else if (IsInSequel && Answer.Index == delivery.Index)
        {
            Answer = delivery;
        }
    }
}
